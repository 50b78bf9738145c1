// Names of things that people train with: whether what lies there is what is asked for.
#pragma once

#include <string_view>

namespace stave {

// Both names are folded. "kettlebells" is a kettlebell, a "pull-up bar" is a bar, a "band
// heavy" is a band.
[[nodiscard]] bool is_called(std::string_view folded_thing, std::string_view folded_need);

// Weights are put on it or chosen at it, so that a size of its own is not its limit: a bar, a
// sled, a cable.
[[nodiscard]] bool is_filled(std::string_view folded_thing);

}  // namespace stave
