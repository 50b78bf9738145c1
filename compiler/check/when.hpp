// Dates: a `when` line with its zone to a moment that exists once.
#pragma once

#include <optional>

#include "compiler/check/check.hpp"

namespace stave::check {

// `zone` is a `zone` line of the same session, used where `when` names none.
// Nothing after an error has been reported.
[[nodiscard]] std::optional<program::When> check_when(const syntax::When& when,
                                                      const std::optional<syntax::Word>& zone,
                                                      const Options& options, DiagnosticSink& sink);

}  // namespace stave::check
