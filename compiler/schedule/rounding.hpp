// Numbers that can be loaded, counted or timed. Conventions are those of growing.hpp.
#pragma once

#include "compiler/quantity/quantity.hpp"

namespace stave::schedule {

// The nearest multiple of `step`, which is > 0; ties down.
[[nodiscard]] Ratio nearest(Ratio value, Ratio step);

// In its own unit.
[[nodiscard]] Ratio rounded_amount(Quantity value);

}  // namespace stave::schedule
