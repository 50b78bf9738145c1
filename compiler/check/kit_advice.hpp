// The movements of a session against its kit line.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::check {

// Warns of kit that is needed and not listed, and of loads that the listed sizes
// cannot make. Says nothing where a session has no kit line.
void advise_on_kit(const program::Program& program, const program::Session& session,
                   DiagnosticSink& sink);

}  // namespace stave::check
