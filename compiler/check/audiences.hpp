// Whether those a file speaks of are the people it knows.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::check {

// Where athletes are known: warns of `for` lines with names that neither they nor squads have, of
// plans' groups that no squad is called like, and of texts for all to read that name an athlete;
// refuses a squad's name where a movement stands ("group Blue: 8"). The program is whole but for
// its movements.
void check_audiences(const program::Program& program, DiagnosticSink& sink);

}  // namespace stave::check
