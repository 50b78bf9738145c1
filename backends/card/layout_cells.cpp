#include "backends/card/layout_cells.hpp"

#include <algorithm>

#include "backends/card/layout_cell_content.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using program::Item;

// More sets than this are tallied, not ticked.
constexpr std::size_t most_boxes = 30;

Centipoints draw_tally(Piece& piece, const Context& context, const CellPlan& plan,
                       Centipoints top) {
    const TextStyle style = context.style.unit();
    const Centipoints baseline = top + ascent(style.size) + context.style.space(3);
    draw(piece, plan.left, baseline, style, "tally");
    const Centipoints from =
        plan.left + context.fonts.measure(style.face, style.size, "tally") + points(4);
    dotted(piece, from, context.style.cells_right(), baseline + points(1));
    return baseline + points(3);
}

// Boxes for every set in rows, once for each side.
Centipoints draw_box_rows(Piece& piece, const Context& context, const Item& item, Centipoints left,
                          Centipoints top) {
    const Centipoints box = context.style.tick_box();
    const Centipoints pitch = box + cell_gap::box;
    const Centipoints room = context.style.cells_right() - left + cell_gap::box;
    const auto fit = static_cast<std::size_t>(std::max(room / pitch, 1));
    const std::size_t rows = (item.set_count() + fit - 1) / fit;
    const std::size_t per_row = (item.set_count() + rows - 1) / rows;
    for (const std::string_view letter : box_letters(item)) {
        for (std::size_t set = 0; set < item.set_count(); ++set) {
            const auto column = static_cast<Centipoints>(set % per_row);
            const auto row = static_cast<Centipoints>(set / per_row);
            tick_box(piece, context.fonts, left + column * pitch, top + row * pitch, box, letter);
        }
        top += static_cast<Centipoints>(rows) * pitch;
    }
    return top;
}

// "10 × 8" and boxes, to its right where they have room.
Centipoints draw_repeated(Piece& piece, const Context& context, const CellPlan& plan,
                          const program::Block& block, const Item& item, Centipoints baseline) {
    const Style& style = context.style;
    std::vector<Run> runs = amount_runs(context, item, 0);
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
    if (item.set_count() > most_boxes) return draw_tally(piece, context, plan, below);
    const Centipoints box = style.tick_box();
    const Centipoints beside = end + points(9);
    if (beside + 5 * (box + cell_gap::box) > style.cells_right()) {
        return draw_box_rows(piece, context, item, plan.left, below);
    }
    const Centipoints top = baseline - (capital_height(style.big().size) + box) / 2;
    return draw_box_rows(piece, context, item, beside, top);
}

// Runs that may break behind every hyphen: "12-" "10-" "8".
std::vector<Run> breaking_at_hyphens(const TextStyle& style, std::string_view text) {
    std::vector<Run> runs;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('-'), text.size() - 1) + 1;
        runs.push_back({style, std::string(text.substr(0, end))});
        text.remove_prefix(end);
    }
    return runs;
}

Centipoints draw_listed(Piece& piece, const Context& context, const CellPlan& plan,
                        const Item& item, Centipoints baseline) {
    const TextStyle style{Face::medium, context.style.size(10.5)};
    const TextBlock block = wrap(context.fonts, breaking_at_hyphens(style, wording::amounts(item)),
                                 context.style.cells_right() - plan.left);
    const Centipoints bottom = draw(piece, plan.left, baseline - ascent(style.size), block);
    return draw_tally(piece, context, plan, bottom);
}

// A cell's second line: the set's load, or its unit; "" for none.
Run second_line(const Context& context, CellForm form, const Item& item, std::size_t set) {
    if (wants_loads_in_cells(context, item)) {
        return {context.style.load(), wording::load(item.loads[set])};
    }
    if (form != CellForm::unit_below) return {};
    Run unit = amount_runs(context, item, set).back();
    unit.gap = 0;
    return unit;
}

// Where a cell stands: its left edge, its number's baseline, its width.
struct CellPlace {
    Centipoints x = 0;
    Centipoints baseline = 0;
    Centipoints width = 0;
};

// One cell; gives its bottom.
Centipoints draw_cell(Piece& piece, const Context& context, CellForm form, const Item& item,
                      std::size_t set, CellPlace place) {
    const Style& style = context.style;
    const Centipoints box = style.tick_box();
    const bool boxes_below = form == CellForm::boxes_below;
    std::vector<Run> runs = amount_runs(context, item, set);
    if (form == CellForm::unit_below) runs.pop_back();
    Centipoints indent = 0;
    Centipoints bottom = place.baseline + points(3);
    if (!boxes_below) {
        const Centipoints height = capital_height(runs.front().style.size);
        draw_boxes(piece, context, item, place.x, place.baseline - (height + box) / 2);
        indent = boxes_width(style, item) + cell_gap::number;
    }
    draw_runs(piece, context, runs, place.x + indent, place.baseline);
    const Run second = second_line(context, form, item, set);
    if (!second.text.empty()) {
        const bool under_number = form == CellForm::unit_below ||
                                  indent + load_width(context, item) + points(4) <= place.width;
        bottom = place.baseline + style.space(12);
        draw(piece, under_number ? place.x + indent : place.x, bottom, second.style, second.text);
        bottom += points(3);
    }
    if (!boxes_below) return bottom;
    draw_boxes(piece, context, item, place.x, bottom + style.space(2));
    return bottom + style.space(2) + box;
}

Centipoints draw_columns(Piece& piece, const Context& context, const CellPlan& plan,
                         const Item& item, CellForm form, Centipoints baseline) {
    CellPlace place{plan.left, baseline, plan.cell_width};
    Centipoints bottom = baseline;
    for (std::size_t set = 0; set < item.set_count(); ++set) {
        const std::size_t column = set % plan.per_row;
        if (set > 0 && column == 0) {
            place.baseline =
                bottom + context.style.space(7) + capital_height(context.style.big().size);
        }
        place.x = plan.left + static_cast<Centipoints>(column) * plan.cell_width;
        bottom = std::max(bottom, draw_cell(piece, context, form, item, set, place));
    }
    return bottom;
}

}  // namespace

Centipoints draw_cells(Piece& piece, const Context& context, const CellPlan& plan,
                       const program::Block& block, std::size_t item_id, Centipoints baseline) {
    const Item& item = block.items[item_id];
    const CellForm form = plan.forms[item_id];
    if (form == CellForm::repeated) {
        return draw_repeated(piece, context, plan, block, item, baseline);
    }
    if (form == CellForm::listed) return draw_listed(piece, context, plan, item, baseline);
    return draw_columns(piece, context, plan, item, form, baseline);
}

}  // namespace stave::card::layout
