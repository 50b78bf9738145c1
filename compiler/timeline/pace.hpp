// How long one set takes: the seconds model.
//
// In this order: a time that is written; the tempo, repetition by repetition;
// the movement's own speed; else a default by unit, which is an assumption. A
// hold adds its seconds to every repetition. Ranges count their upper end.
#pragma once

#include <functional>

#include "compiler/timeline/timeline.hpp"

namespace stave::timeline {

// Told of every assumption that shapes a length.
using AssumptionNote = std::function<void(AssumptionKind)>;

// Seconds of work in one set of `part` on one side (of both sides together, where they
// alternate).
[[nodiscard]] Ratio set_seconds(const program::Program& program, const program::Item& item,
                                const program::Part& part, std::size_t set,
                                const AssumptionNote& note);

// Seconds of rest inside the set: between the parts of a cluster, between the sets on the
// way to a heavy one.
[[nodiscard]] Ratio pause_seconds(const program::Item& item, const program::Part& part,
                                  std::size_t set, const AssumptionNote& note);

// Into how many directions one of the unit goes by the movement's definition.
[[nodiscard]] std::int64_t directions_of(const program::Program& program, const program::Part& part,
                                         Unit unit);
// Seconds of a rest as needed that does not say about how long.
[[nodiscard]] Ratio needed_rest();
// Seconds of a length that something of this name covers at its usual speed: a run, or else
// a walk.
[[nodiscard]] Ratio way_seconds(Quantity length, std::string_view name, const AssumptionNote& note);
// Seconds to walk the distance of the set back; 0 where it is no distance.
[[nodiscard]] Ratio walk_back_seconds(const program::Item& item, std::size_t set);

}  // namespace stave::timeline
