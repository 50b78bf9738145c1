#include <algorithm>
#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "backends/card/layout_header.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using program::Pattern;

struct Share {
    Pattern pattern = Pattern::squat;
    std::int64_t sets = 0;
};

bool is_easy(const program::Block& block) {
    return block.kind == program::BlockKind::warm_up || block.kind == program::BlockKind::cool_down;
}

// Sets by the pattern that a movement trains first, the most first. Both sides of a set
// count once. Empty where fewer than two patterns are known: then there is no balance to
// see. Which pattern a movement belongs to is the library's or the coach's word.
std::vector<Share> shares_of(const Context& context) {
    std::map<Pattern, std::int64_t> sets;
    for (const program::Block& block : context.session.blocks) {
        if (is_easy(block)) continue;
        for (const program::Item& item : block.items) {
            for (const program::Part& part : item.parts) {
                if (!part.definition) continue;
                const auto& definition = context.program.movements[*part.definition];
                if (definition.patterns.empty()) continue;
                sets[definition.patterns.front()] += static_cast<std::int64_t>(item.set_count());
            }
        }
    }
    std::vector<Share> shares;
    for (const auto& [pattern, count] : sets)
        shares.push_back({pattern, count});
    std::ranges::stable_sort(shares, std::ranges::greater{}, &Share::sets);
    if (shares.size() < 2) shares.clear();
    return shares;
}

// Every other share is paler, with white between them; the words name them in order.
void draw_bar(Piece& piece, const Context& context, const std::vector<Share>& shares,
              Centipoints left, Centipoints top) {
    const Centipoints width = context.grid().right - left;
    const Centipoints height = context.style.space(5);
    const Centipoints white = context.style.across(1.5);
    std::int64_t all = 0;
    for (const Share& share : shares)
        all += share.sets;
    std::int64_t before = 0;
    for (std::size_t id = 0; id < shares.size(); ++id) {
        const auto from = static_cast<Centipoints>(width * before / all);
        before += shares[id].sets;
        const auto to = static_cast<Centipoints>(width * before / all);
        const Centipoints gap = id + 1 < shares.size() ? white : 0;
        if (to - from <= gap) continue;
        piece.primitives.emplace_back(Box{left + from, top, to - from - gap, height, 0,
                                          id % 2 == 0 ? grey::black : grey::rule, 0, grey::black});
    }
}

}  // namespace

Centipoints draw_patterns(Piece& piece, const Context& context, Centipoints y) {
    const std::vector<Share> shares = shares_of(context);
    if (shares.empty()) return y;
    const Style& style = context.style;
    const Grid& grid = context.grid();
    const TextStyle words = style.unit();
    const Centipoints bar_top = y + style.space(4);
    const TextStyle label = style.capitals();
    const std::string_view name = context.word(wording::Word::sets_label);
    draw(piece, grid.fact_label, bar_top + style.space(5), label, name);
    // A wide family's label may need more than its column.
    const Centipoints left = std::max(
        grid.fact_value, grid.fact_label + points(2) +
                             context.fonts.measure(label.face, label.size, name, label.tracking));
    draw_bar(piece, context, shares, left, bar_top);
    std::vector<Run> runs;
    for (const Share& share : shares) {
        if (!runs.empty()) runs.back().text += ',';
        const std::string word(wording::pattern(context.language, share.pattern));
        runs.push_back(
            {words, word + "\u00A0" + std::to_string(share.sets), blank(context.fonts, words)});
    }
    const TextBlock block = wrap(context.fonts, runs, grid.right - left);
    return draw(piece, left, bar_top + style.space(7), block);
}

}  // namespace stave::card::layout
