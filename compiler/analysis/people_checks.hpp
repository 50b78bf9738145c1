// The sessions as each of their athletes does them: loads that cannot be worked out, kit that
// is lacking, what is to be avoided.
#pragma once

#include "compiler/analysis/analyse.hpp"

namespace stave::analysis {

// Makes what all sessions of an athlete share, then says of each athlete, movement and problem
// once what there is to say, whichever of the sessions it is found in first. `known` may be null.
void check_people(Snapshot& snapshot, KnownFits* known);

}  // namespace stave::analysis
