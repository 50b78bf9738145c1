// The folder behind --font: its font files read whole, and the four faces chosen.
#pragma once

#include <expected>
#include <string>

#include "backends/card/family.hpp"

namespace stave::driver {

// The files of the folder itself, in the order of their names. `folder` is not empty.
[[nodiscard]] std::expected<card::ChosenFamily, Diagnostic> read_family(const std::string& folder);

}  // namespace stave::driver
