// What a good colleague would say of a session that is right in form: warnings of
// what is usually a slip or a risk, with the source of each rule.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::check {

// All sessions, one by one and in their order.
void advise(const program::Program& program, DiagnosticSink& sink);

}  // namespace stave::check
