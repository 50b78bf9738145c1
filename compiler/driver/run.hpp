// The command line: parses the words, runs the command, answers with an exit
// code. Diagnostics go to `err`, results to `out`.
#pragma once

#include <string>
#include <vector>

#include "compiler/driver/environment.hpp"

namespace stave::driver {

inline constexpr int exit_done = 0;
inline constexpr int exit_source_errors = 1;
inline constexpr int exit_usage = 2;
inline constexpr int exit_files = 3;

// `words` without the program's name. Throws only for bugs and want of memory.
[[nodiscard]] int run(const std::vector<std::string>& words, Environment& environment);

}  // namespace stave::driver
