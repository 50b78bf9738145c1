// A square code as lines of text that a terminal shows: half blocks, two rows of modules in a
// line, the quiet zone around them.
//
// Black on white by the colours that no theme changes (ECMA-48 SGR, 16 and 231 of the 256 that
// are common practice), since many readers want dark on light and most terminals are dark.
#pragma once

#include <string>

#include "backends/codes/square_code.hpp"

namespace stave::codes {

// UTF-8, each line with its end; `side` and twice the quiet zone columns wide.
[[nodiscard]] std::string terminal_lines(const SquareCode& code);

}  // namespace stave::codes
