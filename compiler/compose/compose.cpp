#include "compiler/compose/compose.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "compiler/compose/workspace.hpp"
#include "compiler/names/edit_distance.hpp"
#include "compiler/parse/line_scanner.hpp"
#include "compiler/source/utf8.hpp"

namespace stave::compose {

using grammar::LineKind;

bool is_first_rank(LineKind kind) {
    switch (kind) {
        case LineKind::open_session:
        case LineKind::open_movement:
        case LineKind::open_routine:
        case LineKind::open_athlete:
        case LineKind::open_plan:
        case LineKind::open_did:
        case LineKind::open_squad:
        case LineKind::open_named_kit:
        case LineKind::border:
            return true;
        default:
            return false;
    }
}

std::uint32_t add_border(const Workspace& workspace) {
    parse::Line border;
    border.kind = LineKind::border;
    workspace.tree.lines.push_back(border);
    return static_cast<std::uint32_t>(workspace.tree.lines.size() - 1);
}

std::vector<Piece> split_at_commas(const Workspace& workspace, Span span) {
    std::vector<Piece> pieces;
    if (span.empty()) return pieces;
    const std::string_view text = workspace.source.text();
    for (std::uint32_t begin = span.begin;;) {
        const Span comma = parse::find_comma(text, {begin, span.end});
        const Span piece = parse::trim(text, {begin, comma.begin});
        pieces.push_back({clean_text(text.substr(piece.begin, piece.size())), piece});
        if (comma.empty()) return pieces;
        begin = comma.end;
    }
}

namespace {

std::string digits_of(const std::string& name) {
    std::string digits;
    std::ranges::copy_if(name, std::back_inserter(digits),
                         [](char c) { return c >= '0' && c <= '9'; });
    return digits;
}

// Whether a line that could not be read may have been such an opener.
bool may_be_lost(const parse::ParseTree& tree, LineKind opener) {
    return std::ranges::any_of(tree.lines, [&](const parse::Line& line) {
        return line.is_broken && (line.kind == opener || line.kind == LineKind::unclassified);
    });
}

}  // namespace

bool Workspace::searches(std::size_t names) const {
    constexpr std::size_t most_searched = 2000;
    return !sink.has_plenty() && names <= most_searched;
}

std::string Workspace::near_name(const std::string& name, const std::vector<std::string>& names,
                                 LineKind opener) const {
    // A short name is near too many, and a long one takes long.
    constexpr std::size_t shortest = 4;
    constexpr std::size_t longest = 60;
    const std::size_t size = character_count(name);
    if (!searches(names.size()) || size < shortest || size > longest) return "";
    // One slip in a short name, two in a longer one.
    constexpr std::size_t long_name = 6;
    std::size_t least = size < long_name ? 2 : 3;
    const std::string digits = digits_of(name);
    std::string best;
    bool is_tie = false;
    for (const std::string& other : names) {
        if (character_count(other) > size + least) continue;
        // One number is not another with a slip.
        if (digits_of(other) != digits) continue;
        const std::size_t distance = edit_distance(name, other, least);
        if (distance > least || (distance == least && best.empty())) continue;
        if (distance == least) {
            is_tie = is_tie || other != best;
            continue;
        }
        least = distance;
        best = other;
        is_tie = false;
    }
    return is_tie || best.empty() || may_be_lost(tree, opener) ? "" : best;
}

namespace {

bool lacks_file(const parse::ParseTree& tree) {
    return std::ranges::any_of(tree.lines, [](const parse::Line& line) {
        return line.kind == LineKind::include && line.is_broken;
    });
}

}  // namespace

Arrangement compose(SourceFile& source, parse::ParseTree& tree, const Sources& sources,
                    DiagnosticSink& sink) {
    Workspace workspace{source, tree, sources, sink};
    const Lines included = add_includes(workspace);
    workspace.lacks_file = lacks_file(tree);
    UsedRoutines used = add_routines(workspace, included);
    Arrangement arrangement = add_library(workspace, add_bases(workspace, used.lines));
    arrangement.filled = std::move(used.filled);
    arrangement.unused = std::move(used.unused);
    arrangement.lacks_file = workspace.lacks_file;
    return arrangement;
}

}  // namespace stave::compose
