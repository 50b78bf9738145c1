// A timeline as text, one line for each entry, for golden tests.
#pragma once

#include <string>

#include "compiler/timeline/timeline.hpp"

namespace stave::timeline {

[[nodiscard]] std::string dump(const Timeline& timeline);

}  // namespace stave::timeline
