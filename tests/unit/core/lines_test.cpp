// Single lines: what is refused, at which words, with which mend; and that what is
// read has no problem in its place.
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <ranges>
#include <sstream>

#include "compiler/analysis/analyse.hpp"
#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/parse/parse.hpp"
#include "compiler/zones/zone_loader.hpp"
#include "tests/unit/core/expectations.hpp"

namespace stave::tests {
namespace {

using grammar::LineKind;

// The lines that a line of the kind stands between in a whole file.
struct Place {
    std::string before;
    std::string after;
};

const std::string whole_session = "session: Yard\nsquat: 5\n";

bool belongs_to_definition(LineKind kind) {
    return kind >= LineKind::counted_in && kind <= LineKind::directions;
}

bool belongs_to_plan(LineKind kind) {
    const bool field = kind >= LineKind::from && kind <= LineKind::sunday;
    return field || kind == LineKind::open_grow;
}

// A plan that is whole once the line is in it.
Place place_in_plan(LineKind kind) {
    const std::string session =
        "session 9: Yard\ndeadlift: 3 x 5 @ 70 %\npull-up: 5\nfront squat: 5 @ 60 kg\n"
        "circuit Legs: 2 rounds\nstep-up: 8 each leg\n";
    const std::string head = kind == LineKind::open_plan ? "" : "plan Autumn:\n";
    std::string rest;
    if (kind != LineKind::from) rest += "from: 2026-11-30\n";
    if (kind != LineKind::weeks) rest += "weeks: 6\n";
    if (kind != LineKind::thursday) rest += "Thursday: 18:30, session 9\n";
    if (kind == LineKind::open_plan) return {session, rest};
    return {session + head + rest, ""};
}

Place place_of(const std::string& line) {
    DiagnosticSink ignored;
    const SourceFile source("line", line + '\n');
    const LineKind kind = parse::parse(source, ignored).lines.front().kind;
    // Two movements in turn do not say their rounds but by their sets.
    if (kind == LineKind::open_superset) {
        return {"session: Yard\n", "  squat: 3 x 5\n  swing: 3 x 5\n"};
    }
    if (grammar::is_block(kind)) return {"session: Yard\n", "  squat: 5\n  swing: 5\n"};
    if (belongs_to_definition(kind)) return {"movement wave:\n", whole_session};
    if (belongs_to_plan(kind) || kind == LineKind::open_plan) return place_in_plan(kind);
    switch (kind) {
        case LineKind::open_session:
            return {"", "squat: 5\n"};
        case LineKind::when:
        case LineKind::zone:
        case LineKind::place:
        case LineKind::series:
        case LineKind::coach:
        case LineKind::link:
        case LineKind::pages:
        case LineKind::effort:
        case LineKind::kit:
        case LineKind::stop:
        case LineKind::audience:
        case LineKind::avoid:
            return {"session: Yard\n", "squat: 5\n"};
        case LineKind::columns:
            return {"session: Yard\nsets:\n", "squat: 5\n"};
        case LineKind::open_movement:
        case LineKind::open_routine:
        case LineKind::include:
            return {"", whole_session};
        case LineKind::weight:
        case LineKind::units:
        case LineKind::language:
        case LineKind::open_test:
            return {whole_session + "athlete Mara:\n", ""};
        case LineKind::movement_line:
        case LineKind::open_plain_movement:
        case LineKind::open_game:
            return {"session: Yard\nsets:\n", ""};
        default:
            return {whole_session, ""};
    }
}

analysis::Snapshot analysed(const Place& place, const std::string& line) {
    static zones::ZoneLoader zones;
    return analysis::analyse("line", place.before + line + '\n' + place.after,
                             {zones.finder(), {}});
}

std::vector<Diagnostic> errors_of(const analysis::Snapshot& snapshot) {
    std::vector<Diagnostic> errors = snapshot.sink.sorted();
    std::erase_if(errors, [](const Diagnostic& one) {
        return catalogue_entry(one.code).severity != Severity::error;
    });
    return errors;
}

std::string show(const analysis::Snapshot& snapshot, const std::vector<Diagnostic>& errors) {
    std::string text;
    for (const Diagnostic& one : errors) {
        text += std::string(catalogue_entry(one.code).name) + " \"" +
                std::string(snapshot.source->text(one.span)) + "\"; ";
    }
    return text;
}

// The whole text with the fix made, from the line on; the edits may stand in any order.
std::string mended(const analysis::Snapshot& snapshot, const Place& place, const Fix& fix) {
    std::vector<Edit> edits = fix.edits;
    std::ranges::sort(edits, {}, [](const Edit& edit) { return edit.span.begin; });
    std::string text(
        snapshot.source->text().substr(0, snapshot.source->text().size() - place.after.size()));
    for (auto& edit : std::ranges::reverse_view(edits))
        text.replace(edit.span.begin, edit.span.size(), edit.text);
    text.erase(0, place.before.size());
    while (text.ends_with('\n') || text.ends_with(' '))
        text.pop_back();
    return text;
}

std::vector<std::vector<std::string>> read_table(const std::string& name) {
    std::vector<std::vector<std::string>> rows;
    std::istringstream lines(
        read_text(std::filesystem::path(STAVE_SOURCE_DIR) / "tests/files/lines" / name));
    int header = 2;
    for (std::string line; std::getline(lines, line);) {
        if (header-- > 0) continue;
        std::vector<std::string>& row = rows.emplace_back();
        for (std::size_t tab = line.find('\t'); tab != std::string::npos; tab = line.find('\t')) {
            row.push_back(line.substr(0, tab));
            line.erase(0, tab + 1);
        }
        row.push_back(line);
    }
    return rows;
}

std::string with_line_ends(std::string text) {
    for (std::size_t at = text.find("\\n"); at != std::string::npos; at = text.find("\\n"))
        text.replace(at, 2, "\n");
    return text;
}

TEST(Lines, AreRefusedAtTheirWordsWithTheirMend) {
    for (const std::vector<std::string>& row : read_table("bad.tsv")) {
        ASSERT_EQ(row.size(), 4U) << row.front();
        const Place place = place_of(row[0]);
        const analysis::Snapshot snapshot = analysed(place, row[0]);
        const std::vector<Diagnostic> errors = errors_of(snapshot);
        EXPECT_EQ(show(snapshot, errors), row[1] + " \"" + row[2] + "\"; ") << row[0];
        if (errors.empty()) continue;
        const std::vector<Fix>& fixes = errors.front().fixes;
        const std::string found = fixes.empty() ? "" : mended(snapshot, place, fixes.front());
        EXPECT_EQ(found, with_line_ends(row[3])) << row[0];
    }
}

// Whatever else is wrong with a line, the mend of a problem ends it.
TEST(Lines, AreWithoutTheirProblemOnceItIsMended) {
    for (const std::vector<std::string>& row : read_table("bad.tsv")) {
        const Place place = place_of(row[0]);
        const analysis::Snapshot snapshot = analysed(place, row[0]);
        for (const Diagnostic& error : errors_of(snapshot)) {
            for (const Fix& fix : error.fixes) {
                const std::string line = mended(snapshot, place, fix);
                const std::string left =
                    show(analysed(place, line), errors_of(analysed(place, line)));
                EXPECT_FALSE(left.contains(std::string(catalogue_entry(error.code).name) + " "))
                    << row[0] << " -> " << line;
            }
        }
    }
}

TEST(Lines, OfEveryFormHaveNoProblemInTheirPlace) {
    for (const std::vector<std::string>& row : read_table("ok.tsv")) {
        const std::string line = nlohmann::json::parse('"' + row.front() + '"').get<std::string>();
        const bool needs_another_file = line.starts_with("include");
        if (needs_another_file) continue;
        const analysis::Snapshot snapshot = analysed(place_of(line), line);
        EXPECT_EQ(show(snapshot, errors_of(snapshot)), "") << line;
    }
}

}  // namespace
}  // namespace stave::tests
