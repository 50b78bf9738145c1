#include <string>

#include "backends/card/layout_parts.hpp"

namespace stave::card::layout {

namespace {

// The scale of effort runs from 0 to 10.
constexpr int last_effort = 10;
constexpr Centipoints circle_pitch = points(22.6);
constexpr Centipoints notes_left = points(350);
// Lines for notes: so many at most, so far apart.
constexpr int most_lines = 10;
constexpr Centipoints line_pitch = points(23);

Centipoints circles_centre(const Style& style) {
    return style.space(9) + line_height(smallest_size) + points(6) + style.space(8.5);
}

}  // namespace

Centipoints closing_height(const Style& style) {
    return circles_centre(style) + style.space(8.5) + points(3) + line_height(smallest_size);
}

Piece lay_out_closing(const Context& context, Centipoints height) {
    const Style& style = context.style;
    Piece piece;
    rule(piece, grid::left, grid::right, points(0.8), points(1.6), grey::black);
    const Centipoints heads = style.space(9) + ascent(smallest_size);
    const Centipoints centre = circles_centre(style);
    const Centipoints radius = style.space(8.5);
    const TextStyle figures{Face::medium, style.size(9.5)};
    const TextStyle ends{Face::regular, smallest_size, grey::soft};
    draw(piece, grid::label, heads, style.capitals(), "EFFORT, WHOLE SESSION");
    for (int effort = 0; effort <= last_effort; ++effort) {
        const Centipoints x = grid::label + radius + effort * circle_pitch;
        piece.primitives.emplace_back(Circle{x, centre, radius, points(0.8), grey::black});
        draw_centred(piece, context.fonts, x, centre + capital_height(figures.size) / 2, figures,
                     std::to_string(effort));
    }
    const Centipoints below = centre + radius + points(3) + ascent(ends.size);
    draw(piece, grid::label, below, ends, "rest");
    draw_right(piece, context.fonts, grid::label + last_effort * circle_pitch + 2 * radius, below,
               ends, "all out");
    draw(piece, notes_left, heads, style.capitals(), "NOTES");
    Centipoints y = centre + points(2);
    for (int line = 0; line < most_lines && y <= height; ++line) {
        dotted(piece, y <= below + points(8) ? notes_left : grid::label, grid::right, y);
        y += line_pitch;
    }
    piece.height = height;
    return piece;
}

Piece lay_out_footer(const Context& context, const CardText& text) {
    static constexpr std::string_view first_words = "Stop and tell the coach:";
    static constexpr std::string_view cautions =
        "pain in chest, jaw or arm, feeling faint, breath you cannot catch, sudden weakness, a "
        "sharp pain in a joint. Call the emergency number if it does not pass within minutes. This "
        "card is not medical advice: with a heart, metabolic or kidney condition, or with "
        "symptoms, get cleared first. Times are estimates.";
    const TextStyle strong{Face::medium, smallest_size};
    const TextStyle plain{Face::regular, smallest_size, grey::soft};
    const Centipoints width = points(372);
    const Centipoints source_left = grid::left + width + points(20);
    Piece piece;
    rule(piece, grid::left, grid::right, points(0.2), points(0.4), grey::rule);
    const Centipoints top = points(5);
    const TextBlock words = wrap(context.fonts,
                                 {{strong, std::string(first_words)},
                                  {plain, std::string(cautions), blank(context.fonts, plain)}},
                                 width);
    const Centipoints words_bottom = draw(piece, grid::left, top, words);
    std::vector<Run> source{{strong, context.session.slug}};
    if (!text.revision.empty()) {
        source.push_back({plain, "revision " + text.revision, points(5)});
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
