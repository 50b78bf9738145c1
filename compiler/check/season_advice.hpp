// What sessions of one file say of each other.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::check {

// Titles that are there twice, and dates that go back.
void advise_on_season(const program::Program& program, DiagnosticSink& sink);

}  // namespace stave::check
