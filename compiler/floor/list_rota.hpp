// A rota for rooms in which a visit takes several limiting resources.
#pragma once

#include "compiler/floor/rota.hpp"

namespace stave::floors {

// Interval by interval, who has most left to do chooses first, and takes what the most visits of
// others wait for. Complete, and maybe longer than need be.
[[nodiscard]] Rota list_rota(const Room& room);

}  // namespace stave::floors
