#include <algorithm>
#include <string>

#include "backends/card/layout_log.hpp"
#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

// A warm-up of more is a table: so many boxes would push its names away.
constexpr std::int64_t most_boxes_of_a_list = 4;

// The letter on its tab, hanging from the block's rule, and the minutes below.
// Gives the tab's bottom.
Centipoints draw_rail(Piece& piece, const Context& context, std::uint32_t block_id) {
    const Style& style = context.style;
    const TextStyle letter{Face::condensed_bold, style.size(21), grey::white};
    const Centipoints height = style.space(29);
    piece.primitives.emplace_back(
        Box{grid::left, 0, grid::tab_width, height, 0, grey::black, 0, grey::black});
    const std::string name(1, context.session.blocks[block_id].letter);
    const Centipoints centre = grid::left + grid::tab_width / 2;
    draw_centred(piece, context.fonts, centre, (height + capital_height(letter.size)) / 2, letter,
                 name);
    if (block_id >= context.timeline.blocks.size()) return height;
    const Ratio seconds = context.timeline.blocks[block_id].length_seconds;
    if (seconds <= Ratio(0)) return height;
    const TextStyle minutes{Face::medium, style.size(8.5), grey::soft};
    const std::string length = nearest_minutes(seconds);
    const Centipoints top = height + style.space(3);
    draw_centred(piece, context.fonts, centre, top + ascent(minutes.size), minutes, length);
    return top + line_height(minutes.size);
}

Centipoints draw_head(Piece& piece, const Context& context, const program::Block& block) {
    const Style& style = context.style;
    const std::string kind(wording::kind(block.kind));
    std::string run_in = block.title.empty() ? "" : kind;
    const std::string format = wording::format(block);
    if (!run_in.empty() && !format.empty()) run_in += ", ";
    run_in += format;
    std::vector<Run> runs{{style.head(), block.title.empty() ? kind : block.title}};
    add_words(runs, context.fonts, run_in, style.plain(), style.number(), points(9));
    const Centipoints top = style.space(6);
    draw_result(piece, context, block, top + ascent(style.head().size));
    return draw(piece, grid::label, top,
                wrap(context.fonts, runs, head_right(context, block) - grid::label));
}

Centipoints draw_notes(Piece& piece, const Context& context, std::uint32_t block_id,
                       Centipoints y) {
    const program::Block& block = context.session.blocks[block_id];
    std::vector<std::vector<Run>> paragraphs;
    for (const std::string& note : block.notes) {
        paragraphs.push_back({{context.style.cue(), note}});
    }
    if (!block.options.empty()) {
        paragraphs.push_back(
            {{context.style.strong_cue(), "Your choice:"},
             {context.style.cue(), wording::list(block.options),
              context.fonts.measure(context.style.cue().face, context.style.cue().size, " ")}});
    }
    if (!context.style.without_cues[block_id]) {
        paragraphs.push_back(cue_paragraph(context, block.cues));
    }
    for (const std::string& stop : block.stops) {
        paragraphs.push_back(stop_paragraph(context, stop));
    }
    for (const std::vector<Run>& paragraph : paragraphs) {
        y = draw(piece, grid::label, y, wrap(context.fonts, paragraph, grid::right - grid::label));
    }
    return y;
}

bool is_list(const program::Block& block) {
    const bool easy =
        block.kind == program::BlockKind::warm_up || block.kind == program::BlockKind::cool_down;
    const std::int64_t boxes = block.by_sides ? 2 * block.rounds : block.rounds;
    return easy && boxes <= most_boxes_of_a_list;
}

}  // namespace

Piece lay_out_block(const Context& context, std::uint32_t block_id) {
    const program::Block& block = context.session.blocks[block_id];
    Piece piece;
    rule(piece, grid::left, grid::right, points(0.8), points(1.6), grey::black);
    const Centipoints rail_bottom = draw_rail(piece, context, block_id);
    Centipoints y = draw_head(piece, context, block);
    y = draw_notes(piece, context, block_id, y);
    if (!block.items.empty()) {
        place(piece,
              is_list(block) ? lay_out_list(context, block_id) : lay_out_table(context, block_id),
              y);
    }
    piece.height = std::max({piece.height, y, rail_bottom});
    return piece;
}

}  // namespace stave::card::layout
