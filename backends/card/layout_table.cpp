#include <algorithm>
#include <string>

#include "backends/card/layout_cell_content.hpp"
#include "backends/card/layout_cells.hpp"
#include "backends/card/layout_log.hpp"
#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using program::Item;

// Numbers of the sets or rounds over their columns, and the log's head.
Centipoints draw_heads(Piece& piece, const Context& context, const CellPlan& plan,
                       const program::Block& block, Centipoints y) {
    const Style& style = context.style;
    const Centipoints baseline = y + ascent(style.label().size);
    if (heads_hold(plan) && plan.per_row > 1) {
        draw_right(
            piece, context.fonts, plan.left + plan.number_indent - style.across(7), baseline,
            style.capitals(),
            context.word(block.by_rounds ? wording::Word::round_label : wording::Word::set_label));
        std::size_t sets = 0;
        for (const Item& item : block.items)
            sets = std::max(sets, item.set_count());
        draw_set_numbers(piece, context, plan, block, 0, sets, baseline);
    }
    if (has_log(context, block))
        draw(piece, style.log_left(), baseline, style.capitals(),
             context.word(wording::Word::log_label));
    const Centipoints bottom = baseline + style.across(5);
    rule(piece, context.grid().label, context.grid().right, bottom, style.across(0.5), grey::black);
    return bottom;
}

// Name, then the load or what of it holds for all sets, then the sides.
TextBlock name_block(const Context& context, const program::Block& block, const Item& item,
                     bool with_load, Centipoints width) {
    const Style& style = context.style;
    std::vector<Run> runs{{style.name(), wording::display_name(item)}};
    const std::string load = with_load ? wording::loads(context.language, item)
                                       : wording::shared_load(context.language, item);
    if (!load.empty()) runs.push_back({style.load(), load, style.across(6)});
    std::string sides = wording::sides(context.language, block, item);
    if (const std::size_t between = sides.find(' '); between != std::string::npos) {
        sides.replace(between, 1, "\u00A0");
    }
    if (!sides.empty()) runs.push_back({style.plain(), sides, style.across(6)});
    return wrap(context.fonts, runs, width);
}

// Paragraphs follow the name in its column while the cells leave room beside them;
// else they run across the whole row, and never leave white below the name.
Centipoints draw_remarks(Piece& piece, const Context& context, const program::Block& block,
                         const Item& item, Centipoints y, Centipoints cells_bottom,
                         Centipoints name_width) {
    const Centipoints line = line_height(context.style.cue().size);
    for (const std::vector<Run>& paragraph : remarks(context, block, item)) {
        const TextBlock narrow = wrap(context.fonts, paragraph, name_width);
        const TextBlock wide =
            wrap(context.fonts, paragraph, context.grid().right - context.grid().name);
        const bool leaves_white = y + line < cells_bottom;
        const Centipoints below = std::max(y, cells_bottom);
        if (y + narrow.height() <= below + (leaves_white ? 2 * line : wide.height())) {
            y = draw(piece, context.grid().name, y, narrow);
        } else {
            const Centipoints gap = below == cells_bottom ? context.style.space(2) : 0;
            y = draw(piece, context.grid().name, below + gap, wide);
        }
    }
    return std::max(y, cells_bottom);
}

// One movement of the block as it is shown. `baseline` is that of its name; gives the
// row's bottom.
Centipoints draw_row(Piece& piece, const Context& context, const CellPlan& plan,
                     const program::Block& block, std::uint32_t block_id, std::size_t item_id,
                     Centipoints baseline) {
    const Style& style = context.style;
    const program::Block& said = context.session.blocks[block_id];
    const Item& item = said.items[item_id];
    const Centipoints width = plan.left - context.grid().gutter - context.grid().name;
    draw(piece, context.grid().label, baseline, style.label(),
         block.letter + std::to_string(item_id + 1));
    const TextBlock name =
        name_block(context, said, item, !loads_in_cells(context, plan, block, item_id), width);
    Centipoints y =
        draw(piece, context.grid().name, baseline - ascent(name.lines.front().size), name);
    for (const std::vector<Run>& words : detail_words(context, said, item))
        y = draw(piece, context.grid().name, y, wrap(context.fonts, words, width));
    y = draw(piece, context.grid().name, y,
             wrap(context.fonts, cue_words(context, block_id, item), width));
    const Centipoints cells_bottom = draw_cells(piece, context, plan, block, item_id, baseline);
    const Centipoints log_bottom = draw_log(piece, context, said, item, baseline);
    const Centipoints bottom = std::max(cells_bottom, log_bottom);
    return draw_remarks(piece, context, said, item, y, bottom, width);
}

// Whether a circuit is gone through more than once.
bool goes_round(const program::Block& block) {
    return block.kind == program::BlockKind::circuit &&
           (block.rounds > 1 || block.by_sides || block.run == program::RunKind::as_many);
}

// Whether numbers of sets stand over an item's own cells: the heads hold for one row of
// cells only, and for none where other items have no cells.
bool has_own_numbers(const CellPlan& plan, const program::Block& block, std::size_t item_id) {
    if (!has_cells(plan.forms[item_id]) || block.items[item_id].set_count() == 1) return false;
    return !heads_hold(plan) || (plan.rows > 1 && item_id > 0);
}

// Joins the movements that take turns; an arrowhead says that it goes round.
void draw_bracket(Piece& piece, const Context& context, const program::Block& block,
                  Centipoints top, Centipoints bottom) {
    const Centipoints width = context.style.across(0.9);
    const Centipoints bracket_x = context.grid().bracket;
    const Centipoints foot = bracket_x + context.style.across(4);
    piece.primitives.emplace_back(Line{bracket_x, top, bracket_x, bottom, width, grey::black, 0});
    piece.primitives.emplace_back(Line{bracket_x, bottom, foot, bottom, width, grey::black, 0});
    piece.primitives.emplace_back(Line{bracket_x, top, foot, top, width, grey::black, 0});
    if (!goes_round(block)) return;
    piece.primitives.emplace_back(
        Triangle{foot + context.style.across(1), top, foot - context.style.across(3),
                 top - context.style.across(2.4), foot - context.style.across(3),
                 top + context.style.across(2.4), grey::black});
}

}  // namespace

Piece lay_out_table(const Context& context, std::uint32_t block_id) {
    const Style& style = context.style;
    const program::Block block = in_passes(context.session.blocks[block_id]);
    const CellPlan plan = plan_cells(context, block);
    Piece piece;
    Centipoints y = draw_heads(piece, context, plan, block, style.space(1));
    open(piece, Role::list);
    const Centipoints label_middle = capital_height(style.label().size) / 2;
    Centipoints first_label = 0;
    Centipoints last_label = 0;
    for (std::size_t item_id = 0; item_id < block.items.size(); ++item_id) {
        if (item_id > 0)
            rule(piece, context.grid().label, context.grid().right, y, style.across(0.4),
                 grey::rule);
        open(piece, Role::item);
        if (has_own_numbers(plan, block, item_id)) {
            draw_set_numbers(piece, context, plan, block, 0, block.items[item_id].set_count(),
                             y + style.row_padding + ascent(style.label().size));
            y += set_numbers_height(style);
        }
        const Centipoints baseline = y + style.row_padding + capital_height(style.big().size);
        last_label = baseline - label_middle;
        if (item_id == 0) first_label = last_label;
        y = draw_row(piece, context, plan, block, block_id, item_id, baseline) + style.row_padding;
        close(piece);
    }
    close(piece);
    const bool takes_turns =
        block.kind == program::BlockKind::superset || block.kind == program::BlockKind::circuit;
    if (takes_turns && block.items.size() > 1) {
        draw_bracket(piece, context, block, first_label, last_label);
    }
    piece.height = y - style.row_padding;
    return piece;
}

}  // namespace stave::card::layout
