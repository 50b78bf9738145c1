// What is known of movements, as text for a terminal.
#pragma once

#include <span>
#include <string>

#include "compiler/program/program.hpp"

namespace stave::report {

// Everything that is known of one movement.
[[nodiscard]] std::string movement_text(const program::MovementDefinition& movement);

// A line for each: name, patterns, sides, what it counts, kit.
[[nodiscard]] std::string movement_list(
    std::span<const program::MovementDefinition* const> movements);

}  // namespace stave::report
