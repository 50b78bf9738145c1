// Words a failure of the grammar in a body: what the text found says about the slip
// that was made, and how to mend it.
#pragma once

#include <string_view>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/parse/rules.hpp"

namespace stave::parse {

// A body that its rule could not read. `head` is the line's head.
[[nodiscard]] Diagnostic describe_body(std::string_view text, const Failure& failure,
                                       grammar::BodyKind kind, Span head, Span body);

}  // namespace stave::parse
