#include "backends/card/layout_cells.hpp"

#include <algorithm>
#include <string>
#include <string_view>

#include "backends/card/layout_cell_content.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using program::Item;

// More sets than this are tallied, not ticked.
constexpr std::size_t most_boxes = 30;

Centipoints draw_tally(Piece& piece, const Context& context, const CellPlan& plan,
                       Centipoints top) {
    if (!context.sheet().is_written_on) return top;
    const TextStyle style = context.style.unit();
    const Centipoints baseline = top + ascent(style.size) + context.style.space(3);
    const std::string_view tally = context.word(wording::Word::tally);
    draw(piece, plan.left, baseline, style, tally);
    const Centipoints from =
        plan.left + context.fonts.measure(style.face, style.size, tally) + points(4);
    dotted(piece, from, context.style.cells_right(), baseline + points(1));
    return baseline + points(3);
}

// Boxes for every set in rows, once for each side.
Centipoints draw_box_rows(Piece& piece, const Context& context, const program::Block& block,
                          const Item& item, Centipoints left, Centipoints top) {
    const Centipoints box = context.style.tick_box();
    if (box == 0 || item.is_blank()) return top;
    const Centipoints pitch = box + cell_gap::box;
    const Centipoints room = context.style.cells_right() - left + cell_gap::box;
    const auto fit = static_cast<std::size_t>(std::max(room / pitch, 1));
    const std::size_t sets = sets_in_pass(block, item);
    const std::size_t rows = (sets + fit - 1) / fit;
    const std::size_t per_row = (sets + rows - 1) / rows;
    for (std::size_t first = 0; first < item.set_count(); first += sets) {
        for (const Mark mark : box_marks(block, item, first)) {
            for (std::size_t set = 0; set < sets; ++set) {
                const auto column = static_cast<Centipoints>(set % per_row);
                const auto row = static_cast<Centipoints>(set / per_row);
                tick_box(piece, context.fonts, left + column * pitch, top + row * pitch, box,
                         letter_of(context, mark),
                         is_optional(block, set) ? BoxLine::dotted : BoxLine::solid);
            }
            top += static_cast<Centipoints>(rows) * pitch;
        }
    }
    return top;
}

// "10 × 8" and boxes, to its right where they have room.
Centipoints draw_repeated(Piece& piece, const Context& context, const CellPlan& plan,
                          const program::Block& block, const Item& item, Centipoints baseline) {
    const Style& style = context.style;
    std::vector<Run> runs = amount_runs(context, block, item, 0);
    if (!block.by_rounds) {
        runs.front().gap = points(3);
        runs.insert(runs.begin(), {style.number(), std::to_string(item.set_count()) + "\u00A0×"});
    }
    const Centipoints room = style.cells_right() - plan.left;
    const Centipoints below = baseline + style.space(6);
    const Centipoints end = plan.left + width_of(context, runs);
    if (end <= style.cells_right()) {
        draw_runs(piece, context, runs, plan.left, baseline);
    } else {
        const TextBlock block_of_words = wrap(context.fonts, runs, room);
        const Centipoints top = baseline - ascent(block_of_words.lines.front().size);
        return draw_tally(piece, context, plan, draw(piece, plan.left, top, block_of_words));
    }
    if (item.is_blank()) return below;
    if (item.set_count() > most_boxes) return draw_tally(piece, context, plan, below);
    const Centipoints box = style.tick_box();
    const Centipoints beside = end + points(9);
    if (beside + 5 * (box + cell_gap::box) > style.cells_right()) {
        return draw_box_rows(piece, context, block, item, plan.left, below);
    }
    const Centipoints top = baseline - (capital_height(style.big().size) + box) / 2;
    return draw_box_rows(piece, context, block, item, beside, top);
}

Centipoints draw_listed(Piece& piece, const Context& context, const CellPlan& plan,
                        const Item& item, Centipoints baseline) {
    const TextStyle style{Face::medium, context.style.load().size};
    const TextBlock block =
        wrap(context.fonts, breaking_behind("-", style, wording::amounts(context.language, item)),
             context.style.cells_right() - plan.left);
    const Centipoints bottom = draw(piece, plan.left, baseline - ascent(style.size), block);
    return draw_tally(piece, context, plan, bottom);
}

// Where a cell stands: its left edge and its number's baseline.
struct CellPlace {
    Centipoints x = 0;
    Centipoints baseline = 0;
};

// From a cell's left edge to the item's boxes.
Centipoints box_indent(const Context& context, const CellPlan& plan, const program::Block& block,
                       const Item& item) {
    const Centipoints behind = boxes_width(context.style, block, item) + cell_gap::number;
    return std::max(plan.number_indent - behind, 0);
}

// Loads stand under their numbers, or where that is too narrow under the boxes.
Centipoints load_indent(const Context& context, const CellPlan& plan, const program::Block& block,
                        const Item& item) {
    const Centipoints room = plan.cell_width - cell_gap::number - load_width(context, item);
    if (plan.number_indent <= room) return plan.number_indent;
    return std::clamp(room, 0, box_indent(context, plan, block, item));
}

// A bar as long as the amount is large beside the item's largest, over the load where one
// stands below; gives its bottom.
Centipoints draw_ladder_bar(Piece& piece, const Context& context, const CellPlan& plan,
                            const program::Block& block, const Item& item, std::size_t set,
                            CellPlace place) {
    const std::vector<program::Amount>& amounts = item.parts.front().amounts;
    const Ratio largest = std::max(amounts.front().low.value, amounts.back().low.value);
    const Centipoints indent = wants_loads_in_cells(context, item)
                                   ? load_indent(context, plan, block, item)
                                   : plan.number_indent;
    const Centipoints room = plan.cell_width - indent - cell_gap::cell;
    const auto length =
        static_cast<Centipoints>(floor(Ratio(room) * amounts[set].low.value / largest));
    const Centipoints top = place.baseline + descent(context.style.big().size) + points(0.3);
    const Centipoints height = context.style.across(1.6);
    piece.primitives.emplace_back(
        Box{place.x + indent, top, length, height, 0, grey::black, 0, grey::black});
    return top + height;
}

// What stands under a cell's number: a ladder's bar, the unit where it is a word, then the
// load. Gives the bottom.
Centipoints draw_below_number(Piece& piece, const Context& context, const CellPlan& plan,
                              const program::Block& block, const Item& item, std::size_t set,
                              CellPlace place) {
    Centipoints baseline = place.baseline;
    // What is drawn last, below its own baseline.
    Centipoints above = descent(context.style.big().size);
    if (is_ladder(item)) {
        above = draw_ladder_bar(piece, context, plan, block, item, set, place) - baseline +
                context.style.across(1.8);
    }
    if (has_unit_below(context, block, item)) {
        const Run unit = amount_runs(context, block, item, set).back();
        baseline += std::max(context.style.space(10.5),
                             above + capital_height(unit.style.size) + points(0.2));
        draw(piece, place.x + plan.number_indent, baseline, unit.style, unit.text);
        above = descent(unit.style.size);
    }
    if (wants_loads_in_cells(context, item)) {
        const Centipoints load = capital_height(context.style.load().size);
        baseline += std::max(context.style.space(12), above + load + points(0.8));
        draw(piece, place.x + load_indent(context, plan, block, item), baseline,
             context.style.load(), wording::set_load(context.language, item, set));
        above = 0;
    }
    return baseline + std::max(is_ladder(item) ? above : 0, points(3));
}

// One cell; gives its bottom.
Centipoints draw_cell(Piece& piece, const Context& context, const CellPlan& plan,
                      const program::Block& block, std::size_t item_id, std::size_t set,
                      CellPlace place) {
    const Item& item = block.items[item_id];
    const CellForm form = plan.forms[item_id];
    const Style& style = context.style;
    const Centipoints box = style.tick_box();
    std::vector<Run> runs = amount_runs(context, block, item, set);
    if (has_unit_below(context, block, item)) runs.pop_back();
    if (form == CellForm::beside) {
        const Centipoints height = capital_height(runs.front().style.size);
        draw_boxes(piece, context, block, item, set,
                   place.x + box_indent(context, plan, block, item),
                   place.baseline - (height + box) / 2);
    }
    draw_runs(piece, context, runs, place.x + plan.number_indent, place.baseline);
    const Centipoints bottom = draw_below_number(piece, context, plan, block, item, set, place);
    if (form == CellForm::beside) return bottom;
    draw_boxes(piece, context, block, item, set, place.x, bottom + style.space(2));
    return bottom + style.space(2) + box;
}

Centipoints draw_columns(Piece& piece, const Context& context, const CellPlan& plan,
                         const program::Block& block, std::size_t item_id, Centipoints baseline) {
    const Item& item = block.items[item_id];
    const Centipoints above = capital_height(context.style.big().size);
    CellPlace place{plan.left, baseline};
    Centipoints bottom = baseline;
    for (std::size_t set = 0; set < item.set_count(); ++set) {
        const std::size_t column = set % plan.per_row;
        if (set > 0 && column == 0) {
            const Centipoints top = bottom + context.style.space(6);
            place.baseline = top + set_numbers_height(context.style) + above;
            draw_set_numbers(piece, context, plan, block, set, item.set_count(),
                             top + ascent(context.style.label().size));
        }
        place.x = plan.left + static_cast<Centipoints>(column) * plan.cell_width;
        if (box_marks(block, item, set).empty()) continue;
        bottom = std::max(bottom, draw_cell(piece, context, plan, block, item_id, set, place));
    }
    return bottom;
}

}  // namespace

Centipoints set_numbers_height(const Style& style) {
    return line_height(style.label().size) + style.space(2);
}

bool heads_hold(const CellPlan& plan) {
    return std::ranges::all_of(plan.forms, has_cells);
}

void draw_set_numbers(Piece& piece, const Context& context, const CellPlan& plan,
                      const program::Block& block, std::size_t first, std::size_t sets,
                      Centipoints baseline) {
    const std::string_view choice = context.word(wording::Word::if_good);
    TextStyle figures = context.style.label();
    figures.grey = grey::soft;
    const TextStyle words = context.style.unit();
    const std::size_t in_pass = block.by_sides ? sets / 2 : sets;
    const std::size_t count = std::min(plan.per_row, sets - first);
    for (std::size_t column = 0; column < count; ++column) {
        const std::size_t set = first + column;
        const Centipoints x = plan.left + static_cast<Centipoints>(column) * plan.cell_width;
        const std::string number = column_number(context, block, set, sets);
        draw(piece, x + plan.number_indent, baseline, figures, number);
        if (!is_optional(block, set % in_pass)) continue;
        const Centipoints behind =
            context.fonts.measure(figures.face, figures.size, number) + points(3);
        const Centipoints width = context.fonts.measure(words.face, words.size, choice);
        if (behind + width > plan.cell_width) continue;
        draw(piece, x + plan.number_indent + behind, baseline, words, choice);
    }
}

Centipoints draw_cells(Piece& piece, const Context& context, const CellPlan& plan,
                       const program::Block& block, std::size_t item_id, Centipoints baseline) {
    const Item& item = block.items[item_id];
    const CellForm form = plan.forms[item_id];
    if (form == CellForm::repeated) {
        return draw_repeated(piece, context, plan, block, item, baseline);
    }
    if (form == CellForm::listed) return draw_listed(piece, context, plan, item, baseline);
    return draw_columns(piece, context, plan, block, item_id, baseline);
}

}  // namespace stave::card::layout
