#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

// The scale of effort runs from 0 to 10.
constexpr int last_effort = 10;
constexpr Centipoints circle_pitch = points(22.6);
constexpr Centipoints notes_left = points(350);
constexpr Centipoints line_pitch = points(23);

Centipoints radius_of(const Style& style) {
    return style.space(8.5);
}

Centipoints circles_centre(const Style& style, Closing closing) {
    if (closing == Closing::row) return style.space(8) + radius_of(style);
    return style.space(9) + line_height(smallest_size) + points(6) + radius_of(style);
}

// Gives the x behind the last circle.
Centipoints draw_circles(Piece& piece, const Context& context, Centipoints centre) {
    const Centipoints radius = radius_of(context.style);
    const TextStyle figures{Face::medium, context.style.size(9.5)};
    for (int effort = 0; effort <= last_effort; ++effort) {
        const Centipoints x = grid::label + radius + effort * circle_pitch;
        piece.primitives.emplace_back(Circle{x, centre, radius, points(0.8), grey::black});
        draw_centred(piece, context.fonts, x, centre + capital_height(figures.size) / 2, figures,
                     std::to_string(effort));
    }
    return grid::label + last_effort * circle_pitch + 2 * radius;
}

// All in one row: "EFFORT", the circles, what their ends mean, a line for notes.
void draw_row(Piece& piece, const Context& context, Centipoints centre) {
    const TextStyle capitals = context.style.capitals();
    const TextStyle ends{Face::regular, smallest_size, grey::soft};
    const Centipoints baseline = centre + capital_height(smallest_size) / 2;
    draw(piece, grid::left, baseline, capitals, "EFFORT");
    const std::string_view meaning = "0\u00A0rest, 10\u00A0all out";
    Centipoints x = draw_circles(piece, context, centre) + points(7);
    draw(piece, x, baseline, ends, meaning);
    x += context.fonts.measure(ends.face, ends.size, meaning) + grid::gutter;
    draw(piece, x, baseline, capitals, "NOTES");
    x += context.fonts.measure(capitals.face, capitals.size, "NOTES", capitals.tracking);
    dotted(piece, x + points(4), grid::right, baseline + points(1));
}

void draw_full(Piece& piece, const Context& context, Centipoints centre, Centipoints height) {
    const Style& style = context.style;
    const TextStyle ends{Face::regular, smallest_size, grey::soft};
    const Centipoints heads = style.space(9) + ascent(smallest_size);
    draw(piece, grid::label, heads, style.capitals(), "EFFORT, WHOLE SESSION");
    const Centipoints right = draw_circles(piece, context, centre);
    const Centipoints below = centre + radius_of(style) + points(3) + ascent(ends.size);
    draw(piece, grid::label, below, ends, "rest");
    draw_right(piece, context.fonts, right, below, ends, "all out");
    draw(piece, notes_left, heads, style.capitals(), "NOTES");
    for (Centipoints y = centre + points(2); y <= height; y += line_pitch) {
        dotted(piece, y <= below + points(8) ? notes_left : grid::label, grid::right, y);
    }
}

}  // namespace

Centipoints closing_height(const Style& style, Closing closing) {
    const Centipoints circles_bottom = circles_centre(style, closing) + radius_of(style);
    switch (closing) {
        case Closing::none:
            return 0;
        case Closing::row:
            return circles_bottom + points(1);
        case Closing::full:
            break;
    }
    return circles_bottom + points(3) + line_height(smallest_size);
}

Piece lay_out_closing(const Context& context, Closing closing, Centipoints height) {
    Piece piece;
    if (closing == Closing::none) return piece;
    rule(piece, grid::left, grid::right, points(0.8), points(1.6), grey::black);
    const Centipoints centre = circles_centre(context.style, closing);
    if (closing == Closing::row) {
        draw_row(piece, context, centre);
    } else {
        draw_full(piece, context, centre, height);
    }
    piece.height = height;
    return piece;
}

Piece lay_out_footer(const Context& context, const CardText& text) {
    static constexpr std::string_view clearance =
        "This card is not medical advice: with a heart, metabolic or kidney condition, or with "
        "symptoms, get cleared first. Times are estimates.";
    const TextStyle strong{Face::medium, smallest_size};
    const TextStyle plain{Face::regular, smallest_size, grey::soft};
    const Centipoints width = points(372);
    const Centipoints source_left = grid::left + width + points(20);
    Piece piece;
    rule(piece, grid::left, grid::right, points(0.2), points(0.4), grey::rule);
    const Centipoints top = points(5);
    const Centipoints gap = blank(context.fonts, plain);
    const TextBlock words = wrap(context.fonts,
                                 {{strong, std::string(wording::stop_heading())},
                                  {plain, std::string(wording::stop_signs()), gap},
                                  {plain, std::string(clearance), gap}},
                                 width);
    const Centipoints words_bottom = draw(piece, grid::left, top, words);
    std::vector<Run> source = breaking_at_hyphens(strong, context.session.slug);
    if (!text.revision.empty()) {
        source.push_back({plain, "revision\u00A0" + text.revision, points(5)});
    }
    const TextBlock lines = wrap(context.fonts, source, grid::right - source_left);
    Centipoints y = top;
    for (const TextLine& line : lines.lines) {
        const Centipoints shift = grid::right - line.width;
        for (const LinePart& part : line.parts) {
            draw(piece, shift + part.x, y + ascent(line.size), part.style, part.text);
        }
        y += line_height(line.size);
    }
    piece.height = std::max(words_bottom, y);
    return piece;
}

}  // namespace stave::card::layout
