// The loads of one item, each to a weight that the athlete can make.
#pragma once

#include <vector>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/fit/maxes.hpp"
#include "compiler/fit/racks.hpp"
#include "compiler/fit/working.hpp"

namespace stave::fit {

// What the loads of a session are worked out with. It must outlive its use.
struct LoadContext {
    const program::Program& program;
    const program::Athlete& athlete;
    const Racks& racks;
    const Maxes& maxes;
    DiagnosticSink& sink;
};

// Loads that nothing can be said of (an effort without a test, a band) stay as they are. The
// workings lack their block and item.
void fit_loads(const LoadContext& context, program::Item& item, std::vector<Working>& workings);

}  // namespace stave::fit
