#include "compiler/compose/compose.hpp"

#include <algorithm>
#include <utility>

#include "compiler/compose/workspace.hpp"
#include "compiler/names/edit_distance.hpp"

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
        case LineKind::open_named_kit:
            return true;
        default:
            return false;
    }
}

std::vector<Piece> split_at_commas(const Workspace& workspace, Span span) {
    std::vector<Piece> pieces;
    const std::string text = workspace.text(span);
    std::size_t begin = 0;
    while (begin <= text.size() && !text.empty()) {
        const std::size_t comma = std::min(text.find(',', begin), text.size());
        std::size_t first = text.find_first_not_of(" \t", begin);
        first = std::min(first, comma);
        std::size_t last = comma;
        while (last > first && (text[last - 1] == ' ' || text[last - 1] == '\t'))
            --last;
        pieces.push_back({text.substr(first, last - first),
                          {span.begin + static_cast<std::uint32_t>(first),
                           span.begin + static_cast<std::uint32_t>(last)}});
        begin = comma + 1;
    }
    return pieces;
}

std::string Workspace::near_name(const std::string& name,
                                 const std::vector<std::string>& names) const {
    std::string best;
    // Long lists are not searched, nor for what nobody would read.
    constexpr std::size_t most_searched = 2000;
    if (sink.dropped() > 0 || names.size() > most_searched) return best;
    // One slip in a short name, two in a longer one.
    constexpr std::size_t long_name = 6;
    std::size_t least = name.size() < long_name ? 2 : 3;
    for (const std::string& other : names) {
        const std::size_t distance = edit_distance(name, other, least);
        if (distance >= least) continue;
        least = distance;
        best = other;
    }
    return best;
}

Arrangement compose(SourceFile& source, parse::ParseTree& tree, const Sources& sources,
                    DiagnosticSink& sink) {
    const Workspace workspace{source, tree, sources, sink};
    const Lines included = add_includes(workspace);
    std::vector<Filled> filled;
    const Lines used = add_routines(workspace, included, filled);
    Arrangement arrangement = add_library(workspace, add_bases(workspace, used));
    arrangement.filled = std::move(filled);
    return arrangement;
}

}  // namespace stave::compose
