// What is said of a plan's growth: that it finds something to add to, stays within bounds
// and is not too fast.
#pragma once

#include <span>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/schedule/days.hpp"

namespace stave::schedule {

// `days` are those of the one plan.
void check_growth(const program::Program& program, std::span<const Occurrence> days,
                  DiagnosticSink& sink);

}  // namespace stave::schedule
