// What stands in a cell, and how wide it is.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "backends/card/layout_parts.hpp"

namespace stave::card::layout {

// Between boxes of one set, between boxes and number, between number and unit,
// between cells.
namespace cell_gap {
inline constexpr Centipoints box = points(2);
inline constexpr Centipoints number = points(5);
inline constexpr Centipoints unit = points(2);
inline constexpr Centipoints cell = points(8);
}  // namespace cell_gap

// Numbers in the big style, words and units small. The unit comes last.
[[nodiscard]] std::vector<Run> amount_runs(const Context& context, const program::Item& item,
                                           std::size_t set);
[[nodiscard]] Centipoints width_of(const Context& context, const std::vector<Run>& runs);
// Gives the x behind the last run.
Centipoints draw_runs(Piece& piece, const Context& context, const std::vector<Run>& runs,
                      Centipoints x, Centipoints baseline);

// Whether the unit stands below the number: a word like "steps" does, a sign like
// "s" or "kg" stands beside it.
[[nodiscard]] bool has_unit_below(const program::Item& item);

// The letters in a set's boxes.
[[nodiscard]] std::vector<std::string_view> box_letters(const program::Item& item);
[[nodiscard]] Centipoints boxes_width(const Style& style, const program::Item& item);
void draw_boxes(Piece& piece, const Context& context, const program::Item& item, Centipoints x,
                Centipoints y);

[[nodiscard]] bool equal_loads(const program::Item& item);
// Of the widest load of the item's sets.
[[nodiscard]] Centipoints load_width(const Context& context, const program::Item& item);
// Whether loads differ by set and are short enough for cells.
[[nodiscard]] bool wants_loads_in_cells(const Context& context, const program::Item& item);

}  // namespace stave::card::layout
