#include <algorithm>
#include <vector>

#include "backends/card/layout_cell_content.hpp"
#include "backends/card/layout_cells.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using program::Item;

// More sets than this are one cell where they are alike.
constexpr std::size_t most_alike = 6;
constexpr std::size_t most_in_a_row = 8;
constexpr std::size_t most_cells = 24;

// Least widths of what an item's cells hold.
struct CellWidths {
    Centipoints boxes = 0;
    // Number and unit.
    Centipoints amount = 0;
    Centipoints load = 0;

    [[nodiscard]] Centipoints stacked() const {
        return std::max({boxes, amount, load}) + cell_gap::cell;
    }
};

CellWidths cell_widths(const Context& context, const program::Block& block, const Item& item) {
    CellWidths widths;
    const bool unit_below = has_unit_below(context, block, item);
    for (std::size_t set = 0; set < item.set_count(); ++set) {
        std::vector<Run> runs = amount_runs(context, block, item, set);
        if (unit_below) {
            widths.amount =
                std::max(widths.amount, width_of(context, {{runs.back().style, runs.back().text}}));
            runs.pop_back();
        }
        widths.amount = std::max(widths.amount, width_of(context, runs));
    }
    widths.boxes = boxes_width(context.style, block, item);
    if (wants_loads_in_cells(context, item)) widths.load = load_width(context, item);
    return widths;
}

// The width that all cells of a block may take together.
Centipoints widest_region(const Style& style) {
    const Grid& grid = style.grid();
    return style.cells_right() - grid.name - style.sheet->least_name_width - grid.gutter;
}

class Planner {
public:
    Planner(const Context& context, const program::Block& block)
        : context_(context), block_(block) {}

    CellPlan plan() {
        std::size_t most = 0;
        for (const Item& item : block_.items) {
            const CellWidths widths = cell_widths(context_, block_, item);
            plan_.forms.push_back(first_form(item, widths));
            if (!has_cells(plan_.forms.back())) continue;
            most = std::max(most, item.set_count());
            widest_.boxes = std::max(widest_.boxes, widths.boxes);
            widest_.amount = std::max(widest_.amount, widths.amount);
            widest_.load = std::max(widest_.load, widths.load);
        }
        plan_.left = context_.grid().cells;
        if (most == 0) return plan_;
        for (plan_.rows = 1;; ++plan_.rows) {
            plan_.per_row = (most + plan_.rows - 1) / plan_.rows;
            if (plan_.per_row <= most_in_a_row && choose_arrangement()) break;
        }
        set_places();
        return plan_;
    }

private:
    [[nodiscard]] CellForm first_form(const Item& item, const CellWidths& widths) const {
        const std::size_t sets = item.set_count();
        const Centipoints region = widest_region(context_.style);
        const bool fits =
            widths.stacked() <= region / static_cast<Centipoints>(std::min(sets, most_in_a_row));
        const bool alike = wording::equal_amounts(item) && equal_loads(item);
        if (alike && sets > 1 && (sets > most_alike || !fits)) return CellForm::repeated;
        const bool too_wide = widths.stacked() > region;
        return sets > most_cells || too_wide ? CellForm::listed : CellForm::beside;
    }

    // Whether `per_row` cells have room side by side; one always has.
    bool choose_arrangement() {
        const Centipoints room =
            widest_region(context_.style) / static_cast<Centipoints>(plan_.per_row);
        const Centipoints indent = widest_.boxes == 0 ? 0 : widest_.boxes + cell_gap::number;
        const Centipoints beside = std::max(indent + widest_.amount, widest_.load) + cell_gap::cell;
        const bool stacks = beside > room;
        plan_.cell_width = stacks ? widest_.stacked() : beside;
        plan_.number_indent = stacks ? 0 : indent;
        for (CellForm& form : plan_.forms) {
            if (has_cells(form)) form = stacks ? CellForm::boxes_below : CellForm::beside;
        }
        return plan_.cell_width <= room;
    }

    void set_places() {
        const auto columns = static_cast<Centipoints>(plan_.per_row);
        const Centipoints right = context_.style.cells_right();
        const Centipoints usual = (right - context_.grid().cells) / columns;
        plan_.cell_width =
            std::max(plan_.cell_width, std::min(usual, context_.sheet().widest_cell));
        plan_.left = std::min(context_.grid().cells, right - columns * plan_.cell_width);
    }

    const Context& context_;
    const program::Block& block_;
    CellWidths widest_;
    CellPlan plan_;
};

}  // namespace

CellPlan plan_cells(const Context& context, const program::Block& block) {
    return Planner(context, block).plan();
}

bool loads_in_cells(const Context& context, const CellPlan& plan, const program::Block& block,
                    std::size_t item_id) {
    return has_cells(plan.forms[item_id]) && wants_loads_in_cells(context, block.items[item_id]);
}

}  // namespace stave::card::layout
