#include <algorithm>
#include <optional>

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
// Names keep at least this width.
constexpr Centipoints least_name_width = points(118);
constexpr Centipoints widest_cell = points(62);

bool has_cells(CellForm form) {
    return form != CellForm::repeated && form != CellForm::listed;
}

// Least widths of an item's cells in each form.
struct CellWidths {
    Centipoints beside = 0;
    // 0 where the form is not possible.
    Centipoints unit_below = 0;
    Centipoints boxes_below = 0;
};

CellWidths cell_widths(const Context& context, const Item& item) {
    Centipoints amount = 0;
    Centipoints number = 0;
    Centipoints unit = 0;
    bool one_unit = item.parts.size() == 1;
    for (std::size_t set = 0; set < item.set_count(); ++set) {
        const std::vector<Run> runs = amount_runs(context, item, set);
        amount = std::max(amount, width_of(context, runs));
        one_unit = one_unit && runs.size() == 2;
        if (!one_unit) continue;
        number = std::max(number, width_of(context, {runs[0]}));
        unit = std::max(unit, width_of(context, {{runs[1].style, runs[1].text}}));
    }
    const Centipoints boxes = boxes_width(context.style, item);
    const bool with_load = wants_loads_in_cells(context, item);
    const Centipoints load = with_load ? load_width(context, item) : 0;
    CellWidths widths;
    widths.beside = std::max(boxes + cell_gap::number + amount, load) + cell_gap::cell;
    if (one_unit && !with_load) {
        widths.unit_below = boxes + cell_gap::number + std::max(number, unit) + cell_gap::cell;
    }
    widths.boxes_below = std::max({boxes, amount, load}) + cell_gap::cell;
    return widths;
}

// The first form that a cell of this width has room for.
std::optional<CellForm> form_within(const CellWidths& widths, Centipoints width) {
    if (widths.beside <= width) return CellForm::beside;
    if (widths.unit_below > 0 && widths.unit_below <= width) return CellForm::unit_below;
    if (widths.boxes_below <= width) return CellForm::boxes_below;
    return std::nullopt;
}

Centipoints width_in(const CellWidths& widths, CellForm form) {
    switch (form) {
        case CellForm::beside:
            return widths.beside;
        case CellForm::unit_below:
            return widths.unit_below;
        case CellForm::boxes_below:
            return widths.boxes_below;
        case CellForm::repeated:
        case CellForm::listed:
            break;
    }
    return 0;
}

// The width that all cells of a block may take together.
Centipoints widest_region(const Style& style) {
    return style.cells_right() - grid::name - least_name_width - grid::gutter;
}

class Planner {
public:
    Planner(const Context& context, const program::Block& block)
        : context_(context), block_(block) {}

    CellPlan plan() {
        std::size_t most = 0;
        for (const Item& item : block_.items) {
            widths_.push_back(cell_widths(context_, item));
            plan_.forms.push_back(first_form(item, widths_.back()));
            if (has_cells(plan_.forms.back())) most = std::max(most, item.set_count());
        }
        if (most == 0) return plan_;
        for (plan_.rows = 1;; ++plan_.rows) {
            plan_.per_row = (most + plan_.rows - 1) / plan_.rows;
            if (plan_.per_row <= most_in_a_row && choose_forms()) break;
        }
        set_widths();
        return plan_;
    }

private:
    [[nodiscard]] CellForm first_form(const Item& item, const CellWidths& widths) const {
        const std::size_t sets = item.set_count();
        const Centipoints region = widest_region(context_.style);
        const bool fits =
            widths.boxes_below <= region / static_cast<Centipoints>(std::min(sets, most_in_a_row));
        const bool alike = wording::equal_amounts(item) && equal_loads(item);
        if (alike && sets > 1 && (sets > most_alike || !fits)) return CellForm::repeated;
        const bool too_wide = !form_within(widths, region);
        return sets > most_cells || too_wide ? CellForm::listed : CellForm::beside;
    }

    // Whether every item finds a form with `per_row` cells side by side; one
    // always does.
    bool choose_forms() {
        const Centipoints width =
            widest_region(context_.style) / static_cast<Centipoints>(plan_.per_row);
        for (std::size_t item_id = 0; item_id < plan_.forms.size(); ++item_id) {
            if (!has_cells(plan_.forms[item_id])) continue;
            const std::optional<CellForm> form = form_within(widths_[item_id], width);
            if (!form) return false;
            plan_.forms[item_id] = *form;
        }
        return true;
    }

    void set_widths() {
        for (std::size_t item_id = 0; item_id < plan_.forms.size(); ++item_id) {
            plan_.cell_width =
                std::max(plan_.cell_width, width_in(widths_[item_id], plan_.forms[item_id]));
        }
        const auto columns = static_cast<Centipoints>(plan_.per_row);
        const Centipoints right = context_.style.cells_right();
        plan_.cell_width =
            std::max(plan_.cell_width, std::min((right - grid::cells) / columns, widest_cell));
        plan_.left = std::min(grid::cells, right - columns * plan_.cell_width);
    }

    const Context& context_;
    const program::Block& block_;
    std::vector<CellWidths> widths_;
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
