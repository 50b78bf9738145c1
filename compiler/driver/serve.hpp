// `stave serve`: a published folder on this computer's own network, until it is told to stop.
#pragma once

#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"

namespace stave::driver {

// Says where the folder is served, then a line for each request, until SIGINT or SIGTERM:
// answers that are on their way still arrive. Gives the exit code.
[[nodiscard]] int serve(const Options& options, Environment& environment);

}  // namespace stave::driver
