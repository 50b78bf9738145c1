// `stave explain`: sessions unrolled; what each athlete does and lifts of them; and
// who is where when many do them in one room.
#pragma once

#include "compiler/driver/environment.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/options.hpp"

namespace stave::driver {

void explain(const Options& options, Loaded& loaded, Environment& environment);

}  // namespace stave::driver
