// `stave format`: gives files their one true layout.
#pragma once

#include <string>

#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"

namespace stave::driver {

// Formats each file in its place, standard input to standard output. A file with a
// line that cannot be read stays as it is, and so does one whose meaning would
// change. With `options.only_check` nothing is written, and files that would change
// are named. Gives the exit code.
[[nodiscard]] int format_files(const Options& options, Environment& environment);

// What is asked before a file is changed: both texts can be read, say the same and have
// one layout.
[[nodiscard]] bool means_the_same(const std::string& before, const std::string& after);

}  // namespace stave::driver
