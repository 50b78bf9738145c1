// Every diagnostic of texts: its place, its mend and, as a golden file, its words.
#include <gtest/gtest.h>

#include <algorithm>
#include <ranges>
#include <set>

#include "compiler/analysis/analyse.hpp"
#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/diagnostics/render.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/zones/zone_loader.hpp"
#include "tests/unit/core/expectations.hpp"

namespace stave::tests {
namespace {

analysis::Snapshot analyse_file(const std::filesystem::path& path, zones::ZoneLoader& zones) {
    movements::Library library;
    compose::Sources sources = driver::make_sources(path.filename().string(), library);
    check::Options options = driver::make_check_options(zones, library);
    // Elsewhere movements have whatever names show best what goes wrong.
    if (!path.stem().string().starts_with("library")) {
        sources.library = {};
        options.near_movement = {};
        options.known_movement = {};
    }
    return analysis::analyse(path.filename().string(), read_text(path), options, sources);
}

std::string trimmed(std::string text) {
    while (!text.empty() && (text.back() == ' ' || text.back() == '\n'))
        text.pop_back();
    text.erase(0, text.find_first_not_of(' '));
    return text;
}

// The line of the diagnostic once the edits of its first fix are made.
std::string mended_line(const SourceFile& source, const Diagnostic& diagnostic) {
    if (diagnostic.fixes.empty()) return "no fix";
    const Span line = source.line(source.position(diagnostic.span.begin).line - 1);
    std::string text(source.text(line));
    const std::vector<Edit>& edits = diagnostic.fixes.front().edits;
    for (const auto& edit : std::ranges::reverse_view(edits)) {
        text.replace(edit.span.begin - line.begin, edit.span.size(), edit.text);
    }
    // A fix may put a whole line before this one.
    return trimmed(text.substr(0, text.find('\n')));
}

std::vector<Expectation> found_in(const analysis::Snapshot& snapshot) {
    std::vector<Expectation> found;
    for (const Diagnostic& diagnostic : snapshot.sink.sorted()) {
        Expectation& one = found.emplace_back();
        one.line = snapshot.source->position(diagnostic.span.begin).line;
        one.code = catalogue_entry(diagnostic.code).name;
        one.words = snapshot.source->text(diagnostic.span);
        one.mended = mended_line(*snapshot.source, diagnostic);
    }
    return found;
}

std::string show(const std::vector<Expectation>& all) {
    std::string text;
    for (const Expectation& one : all) {
        text += std::to_string(one.line) + ": " + one.code + " \"" + one.words + "\"";
        text += one.mended.empty() ? "\n" : " -> " + one.mended + "\n";
    }
    return text;
}

class ErrorFile : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(ErrorFile, SaysEachProblemAtItsPlaceWithItsMend) {
    zones::ZoneLoader zones;
    const analysis::Snapshot snapshot = analyse_file(GetParam(), zones);
    const std::vector<Expectation> expected = read_expectations(read_text(GetParam()));
    std::vector<Expectation> found = found_in(snapshot);
    // A mend that no remark speaks of is not looked at.
    for (std::size_t i = 0; i < std::min(expected.size(), found.size()); ++i) {
        if (expected[i].mended.empty()) found[i].mended.clear();
    }
    EXPECT_EQ(show(expected), show(found));
}

TEST_P(ErrorFile, WordsThemAsInTheGoldenFile) {
    zones::ZoneLoader zones;
    const analysis::Snapshot snapshot = analyse_file(GetParam(), zones);
    const std::vector<Diagnostic> sorted = snapshot.sink.sorted();
    const FileDiagnostics file{snapshot.source.get(), sorted, snapshot.sink.dropped()};
    const std::filesystem::path golden =
        std::filesystem::path(GetParam()).replace_extension(".txt");
    EXPECT_EQ("", compare_golden(golden, render_text(file, false)));
}

INSTANTIATE_TEST_SUITE_P(Files, ErrorFile, testing::ValuesIn(test_files("tests/files/errors")),
                         [](const auto& file) { return file.param.stem().string(); });

TEST(Errors, RefuseATextOfMoreLinesThanAreRead) {
    const analysis::Snapshot snapshot =
        analysis::analyse("long.stave", std::string(2'000'001, '\n'), {});
    ASSERT_FALSE(snapshot.sink.sorted().empty());
    EXPECT_EQ(snapshot.sink.sorted().front().code, Code::too_many_lines);
}

TEST(Errors, AreCountedAndNotKeptBeyondTheLimit) {
    std::string text = "session: Many\n";
    for (int i = 0; i < 1000; ++i)
        text += "no colon here\n";
    const analysis::Snapshot snapshot = analysis::analyse("many.stave", text, {});
    EXPECT_EQ(snapshot.sink.sorted().size(), DiagnosticSink::limit);
    EXPECT_EQ(snapshot.sink.errors(), 1000U);
    EXPECT_EQ(snapshot.sink.dropped(), 800U);
}

TEST(Errors, RefuseMoreSessionsAndBlocksThanAreRead) {
    std::string sessions;
    for (int i = 0; i < 100'002; ++i)
        sessions += "session " + std::to_string(i) + ":\na: 1\n";
    const analysis::Snapshot many = analysis::analyse("many.stave", sessions, {});
    EXPECT_EQ(many.program.sessions.size(), check::most_sessions);
    ASSERT_EQ(many.sink.errors(), 1U);
    EXPECT_EQ(many.sink.sorted().front().code, Code::too_many);
    std::string blocks = "session: A\n";
    for (int i = 0; i < 30; ++i)
        blocks += "sets:\na: 1\n";
    const analysis::Snapshot long_session = analysis::analyse("long.stave", blocks, {});
    EXPECT_EQ(long_session.program.sessions.front().blocks.size(), check::most_blocks);
    EXPECT_EQ(long_session.sink.errors(), 1U);
}

// Texts that once left 64 bits on the way.
TEST(Errors, KeepTheLargestNumbersInsideTheirBounds) {
    std::string text = "session: Heavy\ncircuit: 100 rounds\n";
    for (int i = 0; i < 50; ++i)
        text += "squat: 99999 @ 10 x 4408.7 lb\n";
    const analysis::Snapshot snapshot = analysis::analyse("heavy.stave", text, {});
    EXPECT_FALSE(snapshot.sink.has_errors());
    EXPECT_GT(snapshot.timelines.front().movements.front().volume.kilograms.all(),
              Ratio(99'000'000'000));
    const analysis::Snapshot fast = analysis::analyse(
        "fast.stave", "movement a:\nspeed: 999999 h per 1/99 inch\nsession: B\na: 5 m\n", {});
    EXPECT_TRUE(fast.sink.has_errors());
}

// Codes that come from files and cards; the tests named must speak of them.
struct ElsewhereCode {
    Code code;
    // Folder or file; the name must stand in one of its texts.
    const char* tests;
};
constexpr ElsewhereCode elsewhere[] = {
    {Code::cannot_read, "tests/unit/driver"},
    {Code::is_folder, "tests/unit/driver"},
    {Code::file_too_large, "tests/unit/driver"},
    {Code::cannot_write, "tests/unit/driver"},
    {Code::cannot_watch, "tests/unit/driver"},
    {Code::layout_differs, "tests/unit/driver"},
    {Code::foreign_feed, "tests/unit/driver"},
    {Code::same_output, "tests/unit/driver"},
    {Code::more_problems, "tests/unit/driver"},
    {Code::too_many_lines, "tests/unit/core"},
    {Code::card_overflow, "tests/unit/card"},
    {Code::card_cues_dropped, "tests/unit/card"},
    {Code::glyph_missing, "tests/unit/card"},
    {Code::pages_overflow, "tests/unit/card"},
    {Code::technique_unknown, "tests/unit/card"},
    {Code::movement_unknown, "tests/unit/compose"},
    {Code::include_missing, "tests/unit/compose"},
    {Code::include_cycle, "tests/unit/compose"},
    {Code::include_too_much, "tests/unit/compose"},
    {Code::routine_twice, "tests/unit/compose"},
    {Code::routine_parameter, "tests/unit/compose"},
    {Code::routine_blank, "tests/unit/compose"},
    {Code::routine_argument, "tests/unit/compose"},
    {Code::routine_unknown, "tests/unit/compose"},
    {Code::routine_cycle, "tests/unit/compose"},
    {Code::routine_too_long, "tests/unit/compose"},
    {Code::base_unknown, "tests/unit/compose"},
    {Code::base_cycle, "tests/unit/compose"},
    {Code::base_too_long, "tests/unit/compose"},
    {Code::base_movement, "tests/unit/compose"},
    {Code::leave_out_unknown, "tests/unit/compose"},
    {Code::allow_unknown, "tests/unit/compose"},
    {Code::allow_error, "tests/unit/compose"},
    {Code::allow_reason, "tests/unit/compose"},
    {Code::allow_unused, "tests/unit/compose"},
    {Code::plan_too_large, "tests/unit/schedule"},
    {Code::plan_too_many, "tests/unit/schedule"},
    {Code::foreign_file, "tests/unit/driver"},
    {Code::manifest_damaged, "tests/unit/driver"},
    {Code::manifest_newer, "tests/unit/driver"},
    {Code::base_address, "tests/unit/driver"},
    {Code::addresses_damaged, "tests/unit/driver"},
    {Code::addresses_nowhere, "tests/unit/driver"},
    {Code::addresses_served, "tests/unit/driver"},
    {Code::font_folder, "tests/unit/driver"},
    {Code::font_too_much, "tests/unit/driver"},
    {Code::font_none, "tests/unit/card"},
    {Code::font_slanted, "tests/unit/card"},
    {Code::font_families, "tests/unit/card"},
    {Code::font_outlines, "tests/unit/card"},
    {Code::font_collection, "tests/unit/card"},
    {Code::font_damaged, "tests/unit/card"},
    {Code::font_licence, "tests/unit/card"},
    {Code::font_sign, "tests/unit/card"},
    {Code::text_right_to_left, "tests/unit/card"},
    {Code::damaged_feed, "tests/unit/driver"},
    {Code::newer_feed, "tests/unit/driver"},
    {Code::odd_clock, "tests/unit/driver"},
    {Code::unclear_previous, "tests/clients"},
    {Code::feed_large, "tests/clients"},
    {Code::serve_folder, "tests/clients"},
    {Code::not_published, "tests/clients"},
    {Code::port_taken, "tests/clients"},
    {Code::cannot_listen, "tests/clients"},
    {Code::no_network, "tests/clients"},
    {Code::kit_too_many, "tests/unit/fit"},
    {Code::feed_taken, "tests/unit/driver"},
    {Code::feed_dropped, "tests/unit/driver"},
    {Code::feed_left_out, "tests/unit/driver"},
    {Code::output_link, "tests/unit/driver"},
    {Code::was_private, "tests/unit/driver"},
    {Code::addresses_alone, "tests/unit/driver"},
    {Code::folder_busy, "tests/unit/driver"},
    {Code::floor_name, "tests/unit/driver"},
    {Code::floor_people, "tests/unit/driver"},
    {Code::floor_day, "tests/unit/driver"},
};

// Whether a test of the folder names the code, as text or as an enumerator.
bool speaks_of(const std::string& folder, const std::string& name) {
    std::string identifier = name;
    std::ranges::replace(identifier, '-', '_');
    const std::filesystem::path root = std::filesystem::path(STAVE_SOURCE_DIR) / folder;
    return std::ranges::any_of(
        std::filesystem::recursive_directory_iterator(root), [&](const auto& entry) {
            if (!entry.is_regular_file()) return false;
            const std::string text = read_text(entry.path());
            return text.contains(name) || text.contains("Code::" + identifier);
        });
}

TEST(Catalogue, EveryCodeIsProducedBySomeCase) {
    std::set<std::string> produced;
    for (const auto& path : test_files("tests/files/errors")) {
        for (const Expectation& one : read_expectations(read_text(path)))
            produced.insert(one.code);
    }
    for (const auto& [code, tests] : elsewhere) {
        const std::string name(catalogue_entry(code).name);
        EXPECT_TRUE(speaks_of(tests, name)) << tests << " does not produce " << name;
        produced.insert(name);
    }
    for (std::size_t code = 0; code < code_count; ++code) {
        const std::string name(catalogue_entry(static_cast<Code>(code)).name);
        EXPECT_TRUE(produced.contains(name)) << name << " is produced by no case";
    }
}

TEST(Catalogue, WordsEveryCodeInFull) {
    std::set<std::string_view> names;
    for (std::size_t i = 0; i < code_count; ++i) {
        const CatalogueEntry& entry = catalogue_entry(static_cast<Code>(i));
        EXPECT_TRUE(names.insert(entry.name).second) << entry.name << " stands twice";
        EXPECT_FALSE(entry.what.empty()) << entry.name;
        EXPECT_FALSE(entry.why.empty()) << entry.name;
        EXPECT_FALSE(entry.mend.empty()) << entry.name;
    }
}

}  // namespace
}  // namespace stave::tests
