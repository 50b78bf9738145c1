// `stave movements`: what is known of movements.
#pragma once

#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"

namespace stave::driver {

// Without words all movements, with the name of one what is known of it, with other
// words those that speak of all of them. Definitions of `options.files` count as well,
// and instead of those of the library that have their names. Gives the exit code.
[[nodiscard]] int show_movements(const Options& options, Environment& environment);

}  // namespace stave::driver
