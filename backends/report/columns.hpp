// Text in columns for a terminal.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace stave::report {

// Each column as wide as its widest cell, the last unpadded; a column that is empty
// throughout takes no room. `indent` blanks stand before every row.
[[nodiscard]] std::string columns(const std::vector<std::vector<std::string>>& rows,
                                  std::size_t indent);

}  // namespace stave::report
