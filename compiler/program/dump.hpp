// A program as text, for golden tests, and a session's for its revision.
#pragma once

#include <string>

#include "compiler/program/program.hpp"

namespace stave::program {

[[nodiscard]] std::string dump(const Program& program);
[[nodiscard]] std::string dump(const Session& session);

}  // namespace stave::program
