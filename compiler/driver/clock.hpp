// The moment of a run: the one that is asked for, or else the machine's.
#pragma once

#include <expected>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"

namespace stave::driver {

// The environment with its clock as `--now` and SOURCE_DATE_EPOCH set it
// (reproducible-builds.org specification). For feeds `--now` wins; cards say that they were
// made at the other alone. A problem where either is no moment.
[[nodiscard]] std::expected<Environment, Diagnostic> with_clock(const Options& options,
                                                                const Environment& environment);

}  // namespace stave::driver
