// How much a session holds, so that a hostile file cannot fill the memory.
#pragma once

#include <cstddef>

#include "compiler/program/program.hpp"

namespace stave::check {

// Sets of all movements and substitutes, each side and joined movement on its
// own.
[[nodiscard]] std::size_t set_total(const program::Session& session);

}  // namespace stave::check
