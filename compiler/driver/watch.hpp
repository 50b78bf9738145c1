// `stave watch`: builds, and builds again whatever depends on a file that was saved, until
// SIGINT, SIGTERM or SIGHUP.
//
// While a file has errors, what an earlier build made of it stays, and is made again together
// with the next file that is saved. A line for each build goes to `out`, problems to `err`.
#pragma once

#include "backends/card/family.hpp"
#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"

namespace stave::driver {

// Gives the exit code: that of a run that is done where a signal ended it, whatever the last
// build came to; that of files where they cannot be watched or nobody can be told of it.
[[nodiscard]] int watch(const Options& options, const card::ChosenFamily& chosen,
                        Environment& environment);

}  // namespace stave::driver
