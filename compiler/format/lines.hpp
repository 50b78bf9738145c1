// Single lines in their main spelling: head and body.
#pragma once

#include <string>

#include "compiler/syntax/document.hpp"

namespace stave::format {

// What stands behind the colon, or "".
[[nodiscard]] std::string body(const syntax::Line& line, std::string_view text);
// What stands before it; `body` is what `body` gives.
[[nodiscard]] std::string head(const syntax::Line& line, const std::string& body);

}  // namespace stave::format
