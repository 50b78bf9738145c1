// Scheduling: the plans of a checked program to the days on which their sessions are held.
//
// Reports hours that do not exist or come twice, sessions of the same people that overlap or
// are held twice, lines that change nothing or contradict others, feeds of one name, and growth
// that finds nothing to add to, goes too far or too fast. Sessions themselves
// are made one by one, by `held_session`, so that a long plan takes no room.
#pragma once

#include <vector>

#include "compiler/civil/zone.hpp"
#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/schedule/days.hpp"

namespace stave::schedule {

// What the plans of a file may hold together.
inline constexpr std::size_t most_occurrences = 120'000;

// Plan after plan, each in the order of its days. The program has no error; `zones` knows
// the zones of its plans.
[[nodiscard]] std::vector<Occurrence> schedule(const program::Program& program,
                                               const civil::ZoneFinder& zones,
                                               DiagnosticSink& sink);

}  // namespace stave::schedule
