#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

constexpr std::string_view clearance =
    "This card is not medical advice: with a heart, metabolic or kidney condition, or with "
    "symptoms, get cleared first. Times are estimates.";
constexpr Centipoints top = points(5);

// Words of the footer; condensed where it is as narrow as a pocket.
TextStyle footer_words(const Context& context) {
    TextStyle style = context.style.small();
    if (!context.sheet().has_rail) style.face = Face::condensed_regular;
    return style;
}

TextBlock cautions(const Context& context) {
    const TextStyle strong{Face::medium, context.style.smallest()};
    const TextStyle plain = footer_words(context);
    const Centipoints gap = blank(context.fonts, plain);
    return wrap(context.fonts,
                {{strong, std::string(wording::stop_heading(context.language))},
                 {plain, std::string(wording::stop_signs(context.language)), gap},
                 {plain, std::string(clearance), gap}},
                context.sheet().cautions_width);
}

// The session's name among the outputs, and what it was made from.
std::vector<Run> source_words(const Context& context, const CardText& text) {
    const TextStyle strong{Face::medium, context.style.smallest()};
    std::vector<Run> source = breaking_at_hyphens(strong, context.session.slug);
    if (!text.revision.empty()) {
        source.push_back({footer_words(context), "revision\u00A0" + text.revision, points(5)});
    }
    return source;
}

Centipoints draw_at_right(Piece& piece, const Context& context, const TextBlock& lines,
                          Centipoints y) {
    for (const TextLine& line : lines.lines) {
        const Centipoints shift = context.grid().right - line.width;
        for (const LinePart& part : line.parts) {
            draw(piece, shift + part.x, y + ascent(line.size), part.style, part.text);
        }
        y += line_height(line.size);
    }
    return y;
}

}  // namespace

Piece lay_out_footer(const Context& context, const CardText& text) {
    const Grid& grid = context.grid();
    Piece piece;
    rule(piece, grid.left, grid.right, context.style.across(0.2), context.style.across(0.4),
         grey::rule);
    const Centipoints words_bottom = draw(piece, grid.left, top, cautions(context));
    const std::vector<Run> source = source_words(context, text);
    const Centipoints source_left = grid.left + context.sheet().cautions_width + 2 * grid.gutter;
    if (source_left < grid.right) {
        const TextBlock lines = wrap(context.fonts, source, grid.right - source_left);
        piece.height = std::max(words_bottom, draw_at_right(piece, context, lines, top));
    } else {
        const TextBlock lines = wrap(context.fonts, source, grid.right - grid.left);
        piece.height = draw_at_right(piece, context, lines, words_bottom);
    }
    return piece;
}

}  // namespace stave::card::layout
