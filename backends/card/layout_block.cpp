#include <algorithm>
#include <string>

#include "backends/card/layout_log.hpp"
#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

// A warm-up of more is a table: so many boxes would push its names away.
constexpr std::int64_t most_boxes_of_a_list = 4;

// About how long the block takes; "" where that is not known.
std::string minutes_of(const Context& context, std::uint32_t block_id) {
    if (block_id >= context.timeline.blocks.size()) return "";
    const Ratio seconds = context.timeline.blocks[block_id].length_seconds;
    return seconds <= Ratio(0) ? "" : nearest_minutes(context, seconds);
}

// From a block's rule to the lower edge of its tab.
Centipoints tab_height(const Style& style) {
    return style.space(29);
}

// The baseline of the letter on the tab and of the head beside it.
Centipoints head_baseline(const Context& context) {
    const Centipoints letter = context.style.size(context.sheet().type.letter);
    return (tab_height(context.style) + capital_height(letter)) / 2;
}

// The letter on its tab, hanging from the block's rule, and the minutes below.
// Gives the tab's bottom.
Centipoints draw_rail(Piece& piece, const Context& context, std::uint32_t block_id) {
    const Style& style = context.style;
    const TextStyle letter{Face::condensed_bold, style.size(context.sheet().type.letter),
                           grey::white};
    const Centipoints height = tab_height(style);
    piece.primitives.emplace_back(Box{context.grid().left, 0, context.grid().tab_width, height, 0,
                                      grey::black, 0, grey::black});
    const std::string name(1, context.session.blocks[block_id].letter);
    const Centipoints centre = context.grid().left + context.grid().tab_width / 2;
    draw_centred(piece, context.fonts, centre, head_baseline(context), letter, name);
    const std::string length = minutes_of(context, block_id);
    if (length.empty() || !context.sheet().has_rail) return height;
    const TextStyle minutes{Face::medium, style.size(context.sheet().type.unit), grey::soft};
    const Centipoints top = height + style.space(3);
    draw_centred(piece, context.fonts, centre, top + ascent(minutes.size), minutes, length);
    return top + line_height(minutes.size);
}

// Minutes at the end of a head that has no rail to write them on; gives the x that
// words have to keep left of.
Centipoints draw_minutes(Piece& piece, const Context& context, std::uint32_t block_id,
                         Centipoints baseline) {
    const std::string length = minutes_of(context, block_id);
    const Centipoints right = context.grid().right;
    if (length.empty() || context.sheet().has_rail) return right;
    const TextStyle style = context.style.number();
    draw_right(piece, context.fonts, right, baseline, style, length);
    return right - context.fonts.measure(style.face, style.size, length) - context.grid().gutter;
}

Centipoints draw_head(Piece& piece, const Context& context, std::uint32_t block_id) {
    const Style& style = context.style;
    const program::Block& block = context.session.blocks[block_id];
    const std::string kind(wording::kind(context.language, block.kind));
    std::string run_in = block.title.empty() ? "" : kind;
    const std::string format = wording::format(context.language, block);
    if (!run_in.empty() && !format.empty()) run_in += ", ";
    run_in += format;
    std::vector<Run> runs{{style.head(), block.title.empty() ? kind : block.title}};
    add_words(runs, context.fonts, run_in, style.plain(), style.number(), style.across(9));
    const Centipoints baseline = head_baseline(context);
    const Centipoints minutes_left = draw_minutes(piece, context, block_id, baseline);
    const Centipoints right = draw_clock_box(piece, context, block, minutes_left, baseline);
    open(piece, Role::heading2);
    const Centipoints bottom =
        draw(piece, context.grid().label, baseline - ascent(style.head().size),
             wrap(context.fonts, runs, right - context.grid().label));
    close(piece);
    return bottom;
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
            {{context.style.strong_cue(), context.label(wording::Word::your_choice)},
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
        y = draw(piece, context.grid().label, y,
                 wrap(context.fonts, paragraph, context.grid().right - context.grid().label));
    }
    return y;
}

bool is_list(const program::Block& block) {
    if (block.columns > 0) return block.columns > 1;
    const bool easy =
        block.kind == program::BlockKind::warm_up || block.kind == program::BlockKind::cool_down;
    const std::int64_t boxes = block.by_sides ? 2 * block.rounds : block.rounds;
    return easy && boxes <= most_boxes_of_a_list;
}

}  // namespace

Piece lay_out_block(const Context& context, std::uint32_t block_id) {
    const program::Block& block = context.session.blocks[block_id];
    Piece piece;
    open(piece, Role::section);
    rule(piece, context.grid().left, context.grid().right, context.style.across(0.8),
         context.style.across(1.6), grey::black);
    const Centipoints rail_bottom = draw_rail(piece, context, block_id);
    Centipoints y = draw_head(piece, context, block_id);
    y = draw_notes(piece, context, block_id, y);
    if (!block.items.empty()) {
        place(piece,
              is_list(block) ? lay_out_list(context, block_id) : lay_out_table(context, block_id),
              y);
        y = std::max(y, piece.height);
    }
    y = draw_tally_strip(piece, context, block, y);
    close(piece);
    piece.height = std::max({piece.height, y, rail_bottom});
    return piece;
}

}  // namespace stave::card::layout
