// One line of a test to what was lifted, or covered in a time, and when.
#pragma once

#include <optional>

#include "compiler/check/lines.hpp"

namespace stave::check {

// `test NAME: 4 @ 105 kg on DATE`, `test NAME: 2000 m in 7:28.4 on DATE`. Nothing after an
// error has been reported. Of an amount alone (24 reps on a day) nothing is worked out.
[[nodiscard]] std::optional<program::Test> check_test(const syntax::Line& line,
                                                      const Definitions& definitions,
                                                      DiagnosticSink& sink);

}  // namespace stave::check
