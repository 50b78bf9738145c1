// "under 16", "adult", "over 60".
#pragma once

#include <optional>
#include <string_view>

#include "compiler/program/athlete.hpp"

namespace stave::check {

// Of a folded text. Nothing where it is no age group, or one of years that are not taken:
// under 6 to 23, over 35 to 90.
[[nodiscard]] std::optional<program::AgeGroup> read_age_group(std::string_view folded);

}  // namespace stave::check
