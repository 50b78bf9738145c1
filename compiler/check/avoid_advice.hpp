// What somebody in the session has to avoid.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::check {

// Warns of each movement, and of each of its substitutes, that asks for what the session
// says is to be avoided, unless another substitute that is always open does not.
void advise_on_avoided(const program::Program& program, const program::Session& session,
                       DiagnosticSink& sink);

}  // namespace stave::check
