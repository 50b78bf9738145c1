// Single lines in their main spelling: head and body.
#pragma once

#include <string>

#include "compiler/syntax/document.hpp"

namespace stave::format {

// What stands before the colon.
[[nodiscard]] std::string head(const syntax::Line& line);
// What stands behind it, or "".
[[nodiscard]] std::string body(const syntax::Line& line, std::string_view text);

}  // namespace stave::format
