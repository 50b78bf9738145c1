// The minutes of a session against those that are booked for it.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/timeline/timeline.hpp"

namespace stave::analysis {

// Warns of more minutes of work and rest than are booked; whether it has.
bool check_booked_time(const program::Session& session, const timeline::Timeline& timeline,
                       DiagnosticSink& sink);

}  // namespace stave::analysis
