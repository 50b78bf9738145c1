// Lighter weeks: a session with a part of its work left out.
//
// Sets and rounds are taken away from the end, down to the nearest whole number, ties
// down, and never the last one; what has one set alone, such as a run of 20 min, is
// shortened instead, and so is the time of a block of as many rounds as possible. Loads
// stay, and warm-up and cool-down stay whole (common practice, no source).
#pragma once

#include "compiler/program/program.hpp"

namespace stave::schedule {

// `share` is what is left out: 2/5 for 40 %; above 0 and below 1.
void lighten(program::Session& session, Ratio share);

}  // namespace stave::schedule
