#include <algorithm>
#include <string>
#include <string_view>

#include "backends/card/layout_parts.hpp"

namespace stave::card::layout {

namespace {

using wording::Word;

// The scale of effort runs from 0 to 10.
constexpr int last_effort = 10;
constexpr Centipoints line_pitch = points(23);
constexpr Centipoints stroke = points(0.8);
// Shorter lines are of no use for notes.
constexpr Centipoints least_note = points(70);

// No larger where type grows: eleven of them are as wide as a pocket's card.
Centipoints radius_of(const Style& style) {
    return style.sheet->circle_radius * std::min(style.permille, 1000) / 1000;
}

// Whether the scale has a row to itself: on a pocket's card it is as wide as the page.
bool stands_alone(const Style& style) {
    return !style.sheet->has_rail;
}

Centipoints circles_left(const Context& context) {
    return stands_alone(context.style) ? context.grid().left : context.grid().label;
}

Centipoints circles_centre(const Style& style, Closing closing) {
    if (closing == Closing::row && !stands_alone(style)) return style.space(8) + radius_of(style);
    return style.space(9) + line_height(style.smallest()) + style.space(6) + radius_of(style);
}

// Gives the x behind the last circle.
Centipoints draw_circles(Piece& piece, const Context& context, Centipoints centre) {
    const Centipoints radius = radius_of(context.style);
    const Centipoints left = circles_left(context) + stroke / 2;
    const Centipoints pitch = context.sheet().circle_pitch;
    const TextStyle figures = context.style.number();
    for (int effort = 0; effort <= last_effort; ++effort) {
        const Centipoints x = left + radius + effort * pitch;
        piece.primitives.emplace_back(Circle{x, centre, radius, stroke, grey::black});
        draw_centred(piece, context.fonts, x, centre + capital_height(figures.size) / 2, figures,
                     std::to_string(effort));
    }
    return left + last_effort * pitch + 2 * radius;
}

// "NOTES" and dots to the right edge, where there is room for a word.
void draw_note_line(Piece& piece, const Context& context, Centipoints x, Centipoints baseline) {
    const TextStyle capitals = context.style.capitals();
    if (context.grid().right - x < least_note) return;
    const std::string_view notes = context.word(Word::notes_label);
    draw(piece, x, baseline, capitals, notes);
    x += context.fonts.measure(capitals.face, capitals.size, notes, capitals.tracking);
    dotted(piece, x + points(4), context.grid().right, baseline + points(1));
}

// All in one row: "EFFORT", the circles, what their ends mean, a line for notes.
void draw_row(Piece& piece, const Context& context, Centipoints centre) {
    const TextStyle ends = context.style.small();
    const Centipoints baseline = centre + capital_height(ends.size) / 2;
    const std::string_view meaning = context.word(Word::effort_ends);
    draw(piece, context.grid().left, baseline, context.style.capitals(),
         context.word(Word::effort_label));
    Centipoints x = draw_circles(piece, context, centre) + points(7);
    draw(piece, x, baseline, ends, meaning);
    x += context.fonts.measure(ends.face, ends.size, meaning) + context.grid().gutter;
    draw_note_line(piece, context, x, baseline);
}

void draw_full(Piece& piece, const Context& context, Centipoints centre, Centipoints height) {
    const Style& style = context.style;
    const TextStyle ends = style.small();
    const Centipoints notes_left = context.sheet().notes_left;
    const Centipoints heads = style.space(9) + ascent(ends.size);
    draw(piece, context.grid().label, heads, style.capitals(),
         context.word(Word::whole_effort_label));
    const Centipoints right = draw_circles(piece, context, centre);
    const Centipoints below = centre + radius_of(style) + points(3) + ascent(ends.size);
    draw(piece, context.grid().label, below, ends, context.word(Word::effort_rest));
    draw_right(piece, context.fonts, right, below, ends, context.word(Word::effort_all_out));
    draw(piece, notes_left, heads, style.capitals(), context.word(Word::notes_label));
    for (Centipoints y = centre + points(2); y <= height; y += line_pitch) {
        dotted(piece, y <= below + points(8) ? notes_left : context.grid().label,
               context.grid().right, y);
    }
}

// The scale as wide as the page, then lines for notes.
void draw_alone(Piece& piece, const Context& context, Centipoints centre, Centipoints height) {
    const Style& style = context.style;
    const TextStyle ends = style.small();
    const Centipoints heads = style.space(9) + ascent(ends.size);
    draw(piece, context.grid().left, heads, style.capitals(),
         context.word(Word::whole_effort_label));
    draw_right(piece, context.fonts, context.grid().right, heads, ends,
               context.word(Word::effort_ends));
    draw_circles(piece, context, centre);
    const Centipoints first = centre + radius_of(style) + line_pitch * 3 / 4;
    for (Centipoints y = first; y <= height; y += line_pitch) {
        if (y == first) {
            draw_note_line(piece, context, context.grid().left, y);
        } else {
            dotted(piece, context.grid().left, context.grid().right, y);
        }
    }
}

}  // namespace

Centipoints closing_height(const Style& style, Closing closing) {
    const Centipoints circles_bottom = circles_centre(style, closing) + radius_of(style);
    if (closing == Closing::none) return 0;
    if (closing == Closing::row || stands_alone(style)) return circles_bottom + points(1);
    return circles_bottom + points(3) + line_height(style.smallest());
}

Piece lay_out_closing(const Context& context, Closing closing, Centipoints height) {
    Piece piece;
    if (closing == Closing::none) return piece;
    rule(piece, context.grid().left, context.grid().right, points(0.8), points(1.6), grey::black);
    const Centipoints centre = circles_centre(context.style, closing);
    if (stands_alone(context.style)) {
        draw_alone(piece, context, centre, height);
    } else if (closing == Closing::row) {
        draw_row(piece, context, centre);
    } else {
        draw_full(piece, context, centre, height);
    }
    piece.height = height;
    return piece;
}

}  // namespace stave::card::layout
