// The work of a block against the time that the block has.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/timeline/timeline.hpp"

namespace stave::analysis {

// Warns of work that fills its interval, of a round that does not fit into the time
// of as many rounds as possible, and of a cap below what the work is reckoned to
// take; whether it has.
bool check_times(const program::Session& session, const timeline::Timeline& timeline,
                 DiagnosticSink& sink);

}  // namespace stave::analysis
