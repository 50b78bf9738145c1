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

// Seconds of one set of `part` on one side (of both sides together, where they
// alternate).
[[nodiscard]] Ratio set_seconds(const program::Program& program, const program::Item& item,
                                const program::Part& part, std::size_t set,
                                const AssumptionNote& note);

}  // namespace stave::timeline
