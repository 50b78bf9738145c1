// A plan as text, for developers and golden files.
#pragma once

#include <string>
#include <vector>

#include "compiler/program/program.hpp"

namespace stave::program {

[[nodiscard]] std::string dump(const Plan& plan, const std::vector<Session>& sessions);

}  // namespace stave::program
