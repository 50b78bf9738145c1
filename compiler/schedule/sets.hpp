// How many sets or rounds something has, changed: new ones are like the last one, and
// those that are too many go from the end.
#pragma once

#include <cstddef>
#include <cstdint>

#include "compiler/program/program.hpp"

namespace stave::schedule {

// `count` >= 1.
void set_sets(program::Item& item, std::size_t count);

// Of a block by rounds, with the sets of its movements; `rounds` >= 1.
void set_rounds(program::Block& block, std::int64_t rounds);

}  // namespace stave::schedule
