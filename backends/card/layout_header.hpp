// The facts of a header: who, when, where, how long, and what is trained.
#pragma once

#include "backends/card/layout_parts.hpp"

namespace stave::card::layout {

// In a column beside the title, each with its label; what is not said is a line to write
// on. Gives the bottom.
[[nodiscard]] Centipoints draw_facts(Piece& piece, const Context& context);

// How the main work divides over the patterns of movement: a bar of shares and their
// names with sets, in the facts' column. Gives the bottom, `y` where nothing is known.
[[nodiscard]] Centipoints draw_patterns(Piece& piece, const Context& context, Centipoints y);

// On a card too narrow for such a column: a line for the name at the right of the row at
// `y`, and the facts as words below the title. Both give the bottom.
[[nodiscard]] Centipoints draw_name_line(Piece& piece, const Context& context, Centipoints y);
[[nodiscard]] Centipoints draw_facts_in_words(Piece& piece, const Context& context, Centipoints y);

}  // namespace stave::card::layout
