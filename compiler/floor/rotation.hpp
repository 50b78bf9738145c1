// The plain rotation, as coaches know it: everyone in the written order, with shifted starts.
#pragma once

#include "compiler/floor/rota.hpp"

namespace stave::floors {

// Each round takes `beats` intervals (>= the stations), those behind the last station are
// waited. Nothing where no shifts were found with which the kit is enough; there may be some
// all the same where stations share kit.
[[nodiscard]] std::optional<Rota> rotation(const Room& room, std::size_t beats);

}  // namespace stave::floors
