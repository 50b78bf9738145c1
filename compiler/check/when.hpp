// Dates: a `when` line with its zone to a moment that exists once.
#pragma once

#include <chrono>
#include <optional>

#include "compiler/check/check.hpp"

namespace stave::check {

// Whether a weekday, where one is said, is that of the date; reports where it is not.
[[nodiscard]] bool weekday_agrees(const std::optional<syntax::Word>& weekday,
                                  std::chrono::year_month_day date, DiagnosticSink& sink);

// Null after it has been reported.
[[nodiscard]] const civil::Zone* find_zone(const syntax::Word& name, const Options& options,
                                           DiagnosticSink& sink);

// `zone` is a `zone` line of the same session, used where `when` names none.
// Nothing after an error has been reported.
[[nodiscard]] std::optional<program::When> check_when(const syntax::When& when,
                                                      const std::optional<syntax::Word>& zone,
                                                      const Options& options, DiagnosticSink& sink);

}  // namespace stave::check
