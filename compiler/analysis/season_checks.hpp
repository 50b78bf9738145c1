// The sessions of plans against the time that they have, as they grow.
#pragma once

#include "compiler/analysis/analyse.hpp"

namespace stave::analysis {

// Says of each session once, with the week, that it takes longer than is booked, and of a
// session whose blocks fit into their time as it is written that they no longer do.
void check_season(Snapshot& snapshot);

}  // namespace stave::analysis
