// Which kinds of lines belong together.
#pragma once

#include "grammar/vocabulary.hpp"

namespace stave::check {

// Whether the line may stand in a movement's definition.
[[nodiscard]] bool belongs_to_definition(grammar::LineKind kind);
// Those that have no place anywhere else.
[[nodiscard]] bool is_of_definitions_alone(grammar::LineKind kind);
// Athletes, squads, plans, results and kits with a name.
[[nodiscard]] bool opens_record(grammar::LineKind kind);
// Facts of a session, which stand before its first block.
[[nodiscard]] bool is_session_fact(grammar::LineKind kind);
// Whether the line is a block or a movement, which only a session can hold.
[[nodiscard]] bool opens_training(grammar::LineKind kind);

}  // namespace stave::check
