#include <algorithm>
#include <string>
#include <string_view>

#include "backends/card/layout_log.hpp"

namespace stave::card::layout {

namespace {

// More rounds than these are written down.
constexpr Centipoints most_tallied = 20;

}  // namespace

Centipoints draw_clock_box(Piece& piece, const Context& context, const program::Block& block,
                           Centipoints right, Centipoints baseline) {
    const Sheet& sheet = context.sheet();
    if (block.run != program::RunKind::for_time || !sheet.is_written_on) return right;
    const Style& style = context.style;
    const TextStyle colon = style.name();
    const TextStyle unit = style.small();
    const Centipoints height = style.space(20);
    const Centipoints width = height * 3;
    const Centipoints left = right - width;
    const Centipoints middle = baseline - capital_height(style.head().size) / 2;
    const Centipoints top = std::max(middle - height / 2, points(3));
    const Centipoints bottom = top + height;
    piece.primitives.emplace_back(
        Box{left, top, width, height, points(2), -1, points(0.9), grey::black});
    draw_centred(piece, context.fonts, left + width / 2, top + (height + colon.size / 2) / 2, colon,
                 ":");
    const Centipoints unit_baseline = bottom - points(2.5);
    draw_right(piece, context.fonts, left + width / 2 - points(5), unit_baseline, unit, "min");
    draw_right(piece, context.fonts, right - points(3), unit_baseline, unit, "s");
    return left - context.grid().gutter;
}

Centipoints draw_tally_strip(Piece& piece, const Context& context, const program::Block& block,
                             Centipoints y) {
    const Sheet& sheet = context.sheet();
    if (block.run != program::RunKind::as_many || !sheet.is_written_on) return y;
    const std::string_view label = context.word(wording::Word::rounds_done);
    const std::string_view reps = wording::unit_word(context.language, Unit::reps,
                                                     wording::plural_of_unknown(context.language));
    const Style& style = context.style;
    const TextStyle capitals = style.capitals();
    const TextStyle unit = style.unit();
    const Centipoints box = style.tick_box();
    const Centipoints pitch = box + points(2);
    const Centipoints top = y + style.space(7);
    const Centipoints baseline = top + (box + capital_height(capitals.size)) / 2;
    draw(piece, context.grid().label, baseline, capitals, label);
    Centipoints x = context.grid().label +
                    context.fonts.measure(capitals.face, capitals.size, label, capitals.tracking) +
                    points(5);
    const Centipoints reps_width = context.fonts.measure(unit.face, unit.size, reps);
    const Centipoints line_width = style.space(44);
    const Centipoints room = context.grid().right - x - reps_width - line_width - points(18);
    const Centipoints boxes = std::clamp(room / pitch, 1, most_tallied);
    for (Centipoints round = 1; round <= boxes; ++round) {
        tick_box(piece, context.fonts, x, top, box, std::to_string(round));
        x += pitch;
    }
    draw(piece, x + points(4), baseline, unit, "+");
    const Centipoints line_left = x + points(8) + context.fonts.measure(unit.face, unit.size, "+");
    dotted(piece, line_left, line_left + line_width, baseline + points(1));
    draw(piece, line_left + line_width + points(4), baseline, unit, reps);
    return top + box;
}

}  // namespace stave::card::layout
