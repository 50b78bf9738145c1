#include <algorithm>
#include <array>
#include <string>

#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

// White between two blocks of the bar.
constexpr Centipoints bar_gap = points(2);

// Where a moment of the session stands on the bar, to a hundredth of a point.
Centipoints position(const Context& context, Ratio seconds) {
    const Ratio share = seconds / context.timeline.total_seconds;
    const Grid& grid = context.grid();
    return grid.left + static_cast<Centipoints>(floor(share * Ratio(grid.right - grid.left)));
}

// Minutes between two figures of the ruler, so that they keep apart.
std::int64_t ruler_step(const Context& context) {
    static constexpr std::array<std::int64_t, 8> steps{1, 2, 5, 10, 15, 30, 60, 120};
    const Ratio minutes = context.timeline.total_seconds / Ratio(60);
    for (const std::int64_t step : steps) {
        if (minutes <= Ratio(step * 12)) return step;
    }
    return ceil(minutes / Ratio(12));
}

void draw_ruler(Piece& piece, const Context& context, Centipoints y) {
    const TextStyle figures = context.style.small();
    const std::int64_t step = ruler_step(context);
    const Centipoints baseline = y + points(3.5) + ascent(figures.size);
    const std::int64_t last = floor(context.timeline.total_seconds / Ratio(60));
    Centipoints end = 0;
    for (std::int64_t minute = 0; minute <= last; minute += step) {
        const Centipoints x = position(context, Ratio(minute * 60));
        piece.primitives.emplace_back(
            Line{x, y, x, y + points(3), context.style.across(0.5), grey::dots, 0});
        const std::string text = minute == 0 ? "0 min" : std::to_string(minute);
        const Centipoints width = context.fonts.measure(figures.face, figures.size, text);
        const Centipoints start =
            minute == 0 ? x : std::min(x - width / 2, context.grid().right - width);
        if (start < end) continue;
        draw(piece, start, baseline, figures, text);
        end = start + width + points(4);
    }
}

void draw_block(Piece& piece, const Context& context, std::size_t block_id, Centipoints y) {
    const timeline::BlockTotal& total = context.timeline.blocks[block_id];
    const program::Block& block = context.session.blocks[block_id];
    const Centipoints from = position(context, total.start_seconds);
    const Centipoints to = position(context, total.start_seconds + total.length_seconds);
    const Centipoints width = to - from - (to < context.grid().right ? bar_gap : 0);
    if (width <= 0) return;
    const bool easy =
        block.kind == program::BlockKind::warm_up || block.kind == program::BlockKind::cool_down;
    const TextStyle letter{Face::condensed_bold, context.style.size(context.sheet().type.bar)};
    const TextStyle length = context.style.unit();
    const std::string name(1, block.letter);
    const std::string minutes = nearest_minutes(context, total.length_seconds);
    const Centipoints letter_width = context.fonts.measure(letter.face, letter.size, name);
    const Centipoints length_x = letter_width + context.style.across(4);
    const Centipoints length_width = context.fonts.measure(length.face, length.size, minutes);
    const Centipoints baseline = y + ascent(letter.size);
    if (letter_width <= width) draw(piece, from, baseline, letter, name);
    if (length_x + length_width <= width) {
        draw(piece, from + length_x, baseline, length, minutes);
    }
    piece.primitives.emplace_back(Box{from, y + line_height(letter.size), width,
                                      context.style.space(5), 0, easy ? grey::rule : grey::black, 0,
                                      grey::black});
}

}  // namespace

std::string nearest_minutes(const Context& context, Ratio seconds) {
    const std::int64_t minutes = floor(seconds / Ratio(60) + Ratio(1, 2));
    return wording::quantity(context.language, {std::max<std::int64_t>(minutes, 1), Unit::minute});
}

Piece lay_out_time_bar(const Context& context) {
    Piece piece;
    const bool complete = context.timeline.blocks.size() == context.session.blocks.size();
    if (!context.sheet().has_time_bar || !complete || context.timeline.total_seconds <= Ratio(0))
        return piece;
    for (std::size_t block_id = 0; block_id < context.session.blocks.size(); ++block_id) {
        draw_block(piece, context, block_id, 0);
    }
    const Centipoints bottom = line_height(context.style.size(context.sheet().type.bar)) +
                               context.style.space(5) + points(1.5);
    draw_ruler(piece, context, bottom);
    piece.height = bottom + points(4) + line_height(context.style.smallest());
    return piece;
}

}  // namespace stave::card::layout
