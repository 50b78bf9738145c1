// The log of a table: what an athlete writes down beside a movement and beside a
// block's head. What is prescribed to the full is not asked for again.
#pragma once

#include "backends/card/layout_parts.hpp"

namespace stave::card::layout {

// Dots to write on, with the unit behind them where one is clear.
void draw_log(Piece& piece, const Context& context, const program::Block& block,
              const program::Item& item, Centipoints baseline);
// A line for what the whole block came to, where it runs against the clock: right of the
// words of its head, which then end at `head_right`.
[[nodiscard]] Centipoints head_right(const Context& context, const program::Block& block);
void draw_result(Piece& piece, const Context& context, const program::Block& block,
                 Centipoints baseline);

}  // namespace stave::card::layout
