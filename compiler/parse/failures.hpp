// Words a failure of the grammar: what the text found says about the slip that
// was made, and how to mend it.
#pragma once

#include <string_view>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/parse/line_scanner.hpp"
#include "compiler/parse/rules.hpp"

namespace stave::parse {

// A line without a colon that ends a head.
[[nodiscard]] Diagnostic describe_no_colon(std::string_view text, const ScannedLine& line);

// A body that its rule could not read. `head` is the line's head.
[[nodiscard]] Diagnostic describe_body(std::string_view text, const Failure& failure,
                                       grammar::BodyKind kind, Span head, Span body);

// A movement's head that is no list of names.
[[nodiscard]] Diagnostic describe_head(std::string_view text, const Failure& failure, Span head);

}  // namespace stave::parse
