// The shortest rota where each visit uses at most one limiting resource.
#pragma once

#include "compiler/floor/rota.hpp"

namespace stave::floors {

// For a room that `is_promised`; exactly `least_intervals` long.
[[nodiscard]] Rota coloured_rota(const Room& room);

}  // namespace stave::floors
