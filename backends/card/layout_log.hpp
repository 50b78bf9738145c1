// The log: what an athlete writes down beside a movement, and what a whole block came
// to where it runs against the clock. What is prescribed to the full is not asked for
// again, and a card that is not written on asks for nothing.
#pragma once

#include "backends/card/layout_parts.hpp"

namespace stave::card::layout {

// Whether anything is to be written down beside the block's movements.
[[nodiscard]] bool has_log(const Context& context, const program::Block& block);
// Lines of dots to write on, the first at `baseline`, with the unit behind them where one is
// clear; gives the bottom of the last.
[[nodiscard]] Centipoints draw_log(Piece& piece, const Context& context,
                                   const program::Block& block, const program::Item& item,
                                   Centipoints baseline);
// A box for the minutes and seconds of a block for time, at the end of its head; gives
// the x that the head's words have to keep left of, `right` where there is no box.
[[nodiscard]] Centipoints draw_clock_box(Piece& piece, const Context& context,
                                         const program::Block& block, Centipoints right,
                                         Centipoints baseline);
// A strip of numbered boxes, one for each round that was done, and a line for the
// repetitions of the round that was not: below a block of as many rounds as possible.
// Gives the strip's bottom, `y` where there is none.
[[nodiscard]] Centipoints draw_tally_strip(Piece& piece, const Context& context,
                                           const program::Block& block, Centipoints y);

}  // namespace stave::card::layout
