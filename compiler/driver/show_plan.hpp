// `stave plan`: the plans of the files as tables or JSON.
#pragma once

#include "compiler/driver/environment.hpp"
#include "compiler/driver/load.hpp"

namespace stave::driver {

// Says of a file without a plan that it has none.
void show_plans(const Loaded& loaded, bool json, Environment& environment);

}  // namespace stave::driver
