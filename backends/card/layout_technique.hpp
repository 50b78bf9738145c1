// The back of a card: how the session's movements go, step by step.
#pragma once

#include <string>
#include <vector>

#include "backends/card/layout_parts.hpp"

namespace stave::card::layout {

// Pages of two columns (one on A6) with the steps, cues, faults and cautions of each
// movement of the session that has steps, in the session's order; as many pages as it
// takes. None where no movement has any.
[[nodiscard]] std::vector<Piece> lay_out_technique(const Context& context, const CardText& text);

// Movements of the session without steps, as the coach wrote them, each once.
[[nodiscard]] std::vector<std::string> without_steps(const program::Program& program,
                                                     const program::Session& session);

}  // namespace stave::card::layout
