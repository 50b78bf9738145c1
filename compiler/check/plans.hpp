// Plans: the lines of each to a plan whose sessions and movements are found by name.
//
// Reports what contradicts itself or names what is not there; whether a time exists on a
// day, and what the growth comes to, is seen when the days are laid out.
#pragma once

#include <vector>

#include "compiler/check/check.hpp"
#include "compiler/check/lines.hpp"
#include "compiler/check/record_lines.hpp"

namespace stave::check {

// `sessions` are all of the program.
[[nodiscard]] std::vector<program::Plan> check_plans(const std::vector<RecordLines>& plans,
                                                     const std::vector<program::Session>& sessions,
                                                     const Definitions& definitions,
                                                     const Options& options, DiagnosticSink& sink);

}  // namespace stave::check
