// What stands in a cell, and how wide it is.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
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

// What a box is for.
enum class Mark : std::uint8_t { none, left, right, first, second };

// A block as a table shows it: one that is done on one side first has its sets twice, the
// first pass before the second. What is below takes blocks and items of this form.
[[nodiscard]] program::Block in_passes(const program::Block& block);
// The side of a pass, and whether an item has work in it.
[[nodiscard]] Mark side_of_pass(const program::Block& block, bool first_pass);
[[nodiscard]] bool is_done_on(const program::Item& item, Mark side);
// Sets of an item in one pass.
[[nodiscard]] std::size_t sets_in_pass(const program::Block& block, const program::Item& item);

// Numbers in the big style, words and units small. The unit comes last.
[[nodiscard]] std::vector<Run> amount_runs(const Context& context, const program::Block& block,
                                           const program::Item& item, std::size_t set);
[[nodiscard]] Centipoints width_of(const Context& context, const std::vector<Run>& runs);
// Gives the x behind the last run.
Centipoints draw_runs(Piece& piece, const Context& context, const std::vector<Run>& runs,
                      Centipoints x, Centipoints baseline);

// Whether the unit stands below the number: a word like "steps" does, a sign like
// "s" or "kg" stands beside it.
[[nodiscard]] bool has_unit_below(const Context& context, const program::Block& block,
                                  const program::Item& item);

// What stands in a set's boxes; none where the set belongs to the other pass.
[[nodiscard]] std::vector<Mark> box_marks(const program::Block& block, const program::Item& item,
                                          std::size_t set);
// "L" and "R" in the card's language, "1", "2", or "".
[[nodiscard]] std::string_view letter_of(const Context& context, Mark mark);
// The number over a set's column: "2"; "R2" in a block that is done on one side first.
[[nodiscard]] std::string column_number(const Context& context, const program::Block& block,
                                        std::size_t set, std::size_t sets);
// Whether the athlete may leave out a set, counted within its pass.
[[nodiscard]] bool is_optional(const program::Block& block, std::size_t set_in_pass);
// A blank has no boxes: nobody knows yet what would be ticked.
[[nodiscard]] Centipoints boxes_width(const Style& style, const program::Block& block,
                                      const program::Item& item);
void draw_boxes(Piece& piece, const Context& context, const program::Block& block,
                const program::Item& item, std::size_t set, Centipoints x, Centipoints y);

// Whether three or more sets rise or fall without a turn: their bars show it at a glance.
[[nodiscard]] bool is_ladder(const program::Item& item);

[[nodiscard]] bool equal_loads(const program::Item& item);
// Of the widest load of the item's sets.
[[nodiscard]] Centipoints load_width(const Context& context, const program::Item& item);
// Whether loads differ by set and are short enough for cells.
[[nodiscard]] bool wants_loads_in_cells(const Context& context, const program::Item& item);

}  // namespace stave::card::layout
