// The one true layout of a file: the same lines, each in its main spelling, indented
// by what it belongs to.
//
// Remarks, blank lines, names and texts stay as they are typed, blanks aside. The
// result means the same and formats to itself.
#pragma once

#include <string>

#include "compiler/syntax/document.hpp"

namespace stave::format {

// `document` holds all lines of one file, in its order, none of them broken; `text`
// is the file's. Lines end with LF, the last one too.
[[nodiscard]] std::string format(const syntax::Document& document, std::string_view text);

}  // namespace stave::format
