// Heavy or fast work that a session begins with.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::check {

// Warns once of heavy or fast work in the session's first block. Says nothing behind a
// `warm-up`, nor behind anything that warms by another name.
void advise_on_warm_up(const program::Program& program, const program::Session& session,
                       DiagnosticSink& sink);

}  // namespace stave::check
