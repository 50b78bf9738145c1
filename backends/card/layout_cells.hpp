// The cells of a table: what one set or round asks for, big, with boxes to tick.
//
// A plan is made for a whole block, so that its columns stand under one another.
// One arrangement holds for the whole block: boxes before the numbers or below
// them. Up to eight sets stand side by side; more that are alike become one cell
// with a row of boxes; more that differ run over several rows, each with its
// numbers of sets; very many are a list with a line for a tally.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "backends/card/layout_parts.hpp"

namespace stave::card::layout {

// How an item's sets are shown.
enum class CellForm : std::uint8_t {
    // Boxes, then the number.
    beside,
    // The number, boxes below it.
    boxes_below,
    // One cell for all sets.
    repeated,
    // The sets in words.
    listed,
};

// Whether the sets stand in cells of their own.
[[nodiscard]] constexpr bool has_cells(CellForm form) {
    return form != CellForm::repeated && form != CellForm::listed;
}

struct CellPlan {
    // By item.
    std::vector<CellForm> forms;
    // Sets side by side, and the rows that the longest item takes.
    std::size_t per_row = 1;
    std::size_t rows = 1;
    Centipoints left = 0;
    // 0 where no item has its sets side by side.
    Centipoints cell_width = 0;
    // From a cell's left edge to its number.
    Centipoints number_indent = 0;
};

[[nodiscard]] CellPlan plan_cells(const Context& context, const program::Block& block);

// Whether the item's cells name their loads; else its name does.
[[nodiscard]] bool loads_in_cells(const Context& context, const CellPlan& plan,
                                  const program::Block& block, std::size_t item_id);

// Whether the numbers over a table's columns hold for all of its items.
[[nodiscard]] bool heads_hold(const CellPlan& plan);
// The numbers over the columns of one row, of an item with so many sets; `first` is the
// row's first set.
void draw_set_numbers(Piece& piece, const Context& context, const CellPlan& plan,
                      const program::Block& block, std::size_t first, std::size_t sets,
                      Centipoints baseline);
// Room that those numbers take above a row of cells that is not the block's first.
[[nodiscard]] Centipoints set_numbers_height(const Style& style);

// Draws the item's cells with their first baseline at `baseline`; gives the
// bottom of what was drawn.
Centipoints draw_cells(Piece& piece, const Context& context, const CellPlan& plan,
                       const program::Block& block, std::size_t item_id, Centipoints baseline);

}  // namespace stave::card::layout
