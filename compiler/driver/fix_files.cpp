#include "compiler/driver/fix_files.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ranges>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/driver/files.hpp"
#include "compiler/driver/outputs.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::driver {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// Whether all edits lie in the file itself, not in what it takes in.
bool is_own(const SourceFile& source, const Fix& fix) {
    return std::ranges::all_of(fix.edits, [&](const Edit& edit) {
        return source.part_at(edit.span.begin) == 0 && source.part_at(edit.span.end) == 0;
    });
}

bool overlap(Span left, Span right) {
    // Two insertions at one place would come in no order.
    if (left.begin == right.begin) return true;
    return left.begin < right.end && right.begin < left.end;
}

bool is_word_sign(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '\'';
}

// Words that move to a note and say how much, on which side or when to rest would no
// longer be counted.
bool hides_work(const Fix& fix) {
    constexpr std::array counted{"each", "per",   "left",    "right", "both",    "alternating",
                                 "rest", "rests", "resting", "swap",  "swapped", "max",
                                 "many", "times", "sets",    "rounds"};
    constexpr std::string_view note = "note: ";
    for (const Edit& edit : fix.edits) {
        const std::size_t begin = edit.text.find(note);
        if (begin == std::string::npos) continue;
        std::string_view said = std::string_view(edit.text).substr(begin + note.size());
        if (said.find_first_of("0123456789") != std::string_view::npos) return true;
        while (!said.empty()) {
            const auto* const end = std::ranges::find_if_not(said, is_word_sign);
            const auto size = static_cast<std::size_t>(end - said.begin());
            const std::string_view word = said.substr(0, size);
            if (std::ranges::any_of(counted, [word](std::string_view one) {
                    return grammar::same_word(one, word);
                })) {
                return true;
            }
            said.remove_prefix(std::min(size + 1, said.size()));
        }
    }
    return false;
}

// The edits of errors' fixes that stand alone, first come first served, in the text's order.
std::vector<Edit> sure_edits(const analysis::Snapshot& snapshot, std::size_t& fixes) {
    std::vector<Edit> edits;
    for (const Diagnostic& diagnostic : snapshot.sink.sorted()) {
        // What is only warned of means something already.
        const bool is_sure = catalogue_entry(diagnostic.code).severity == Severity::error &&
                             diagnostic.fixes.size() == 1 && !mend_is_guess(diagnostic.code) &&
                             !hides_work(diagnostic.fixes.front());
        if (!is_sure) continue;
        const Fix& fix = diagnostic.fixes.front();
        const bool clashes = std::ranges::any_of(fix.edits, [&](const Edit& edit) {
            return std::ranges::any_of(
                edits, [&](const Edit& other) { return overlap(edit.span, other.span); });
        });
        if (clashes || !is_own(*snapshot.source, fix)) continue;
        edits.insert(edits.end(), fix.edits.begin(), fix.edits.end());
        ++fixes;
    }
    std::ranges::sort(edits, {}, [](const Edit& edit) { return edit.span.begin; });
    return edits;
}

// What the first line ends with.
std::string line_end(std::string_view text) {
    const std::size_t end = text.find_first_of("\r\n");
    if (end == std::string_view::npos) return "\n";
    return std::string(text.substr(end, text.substr(end).starts_with("\r\n") ? 2 : 1));
}

std::string apply(std::string text, const std::vector<Edit>& edits) {
    const std::string end = line_end(text);
    for (const auto& edit : std::ranges::reverse_view(edits)) {
        std::string added;
        for (const char c : edit.text)
            added += c == '\n' ? end : std::string(1, c);
        text.replace(edit.span.begin, edit.span.size(), added);
    }
    return text;
}

struct Fixed {
    std::string text;
    std::size_t fixes = 0;
    analysis::Snapshot snapshot;
};

Fixed fix_text(const std::string& shown, std::string text, zones::ZoneLoader& zones,
               movements::Library& library) {
    // One mend may uncover the next problem; a few turns are enough for that. What is more
    // than the sink keeps takes more of them, while problems become fewer.
    constexpr int most_turns = 10;
    std::size_t before = 0;
    const check::Options options = make_check_options(zones, library);
    Fixed fixed;
    const bool has_mark = text.starts_with(byte_order_mark);
    if (has_mark) text.erase(0, byte_order_mark.size());
    for (int turn = 0;; ++turn) {
        fixed.snapshot = analysis::analyse(shown, text, options, make_sources(shown, library));
        const DiagnosticSink& sink = fixed.snapshot.sink;
        const std::size_t problems = sink.sorted().size() + sink.dropped();
        const bool goes_on = turn < most_turns || problems < before;
        before = problems;
        const std::vector<Edit> edits =
            goes_on ? sure_edits(fixed.snapshot, fixed.fixes) : std::vector<Edit>{};
        if (edits.empty()) break;
        text = apply(std::move(text), edits);
    }
    fixed.text = (has_mark ? std::string(byte_order_mark) : std::string()) + text;
    return fixed;
}

// Takes the file's place; says what was done.
std::optional<Diagnostic> write(const std::string& path, const Fixed& fixed,
                                Environment& environment) {
    if (path == "-") {
        environment.out << fixed.text;
        return std::nullopt;
    }
    if (fixed.fixes == 0) return std::nullopt;
    if (auto failed = replace_source(path, fixed.text)) return failed;
    environment.out << fmt::format("{}: {} mend{} made\n", path, fixed.fixes,
                                   fixed.fixes == 1 ? "" : "s");
    return std::nullopt;
}

}  // namespace

Loaded fix_files(const Options& options, zones::ZoneLoader& zones, movements::Library& library,
                 Environment& environment) {
    card::Fonts fonts;
    Loaded loaded;
    loaded.strict = options.strict;
    for (const std::string& path : options.files) {
        const std::string shown = path == "-" ? "standard input" : path;
        auto text = path == "-" ? read_stream(environment.in, shown) : read_file(path);
        if (!text) {
            loaded.file_problems.push_back(std::move(text.error()));
            continue;
        }
        Fixed fixed = fix_text(shown, std::move(*text), zones, library);
        if (auto failed = write(path, fixed, environment)) {
            loaded.file_problems.push_back(std::move(*failed));
        }
        lay_out_all(fixed.snapshot, fonts);
        loaded.snapshots.push_back(std::move(fixed.snapshot));
    }
    return loaded;
}

}  // namespace stave::driver
