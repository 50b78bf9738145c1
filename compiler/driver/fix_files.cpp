#include "compiler/driver/fix_files.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "compiler/driver/files.hpp"

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

// The edits of fixes that stand alone, first come first served, in the text's order.
std::vector<Edit> sure_edits(const analysis::Snapshot& snapshot, std::size_t& fixes) {
    std::vector<Edit> edits;
    for (const Diagnostic& diagnostic : snapshot.sink.sorted()) {
        if (diagnostic.fixes.size() != 1) continue;
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

std::string apply(std::string text, const std::vector<Edit>& edits) {
    for (auto edit = edits.rbegin(); edit != edits.rend(); ++edit)
        text.replace(edit->span.begin, edit->span.size(), edit->text);
    return text;
}

struct Fixed {
    std::string text;
    std::size_t fixes = 0;
    analysis::Snapshot snapshot;
};

Fixed fix_text(const std::string& shown, std::string text, zones::ZoneLoader& zones,
               movements::Library& library) {
    // One mend may uncover the next problem; a few turns are enough.
    constexpr int most_turns = 10;
    const check::Options options = make_check_options(zones, library);
    Fixed fixed;
    const bool has_mark = text.starts_with(byte_order_mark);
    if (has_mark) text.erase(0, byte_order_mark.size());
    for (int turn = 0;; ++turn) {
        fixed.snapshot = analysis::analyse(shown, text, options, make_sources(shown, library));
        const std::vector<Edit> edits =
            turn < most_turns ? sure_edits(fixed.snapshot, fixed.fixes) : std::vector<Edit>{};
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
        loaded.snapshots.push_back(std::move(fixed.snapshot));
    }
    return loaded;
}

}  // namespace stave::driver
