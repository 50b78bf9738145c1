// Lines of groups that nobody does.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::check {

// Warns of each line `group B:` in a session that plans hold for other groups alone: on their
// days it gives way to the movement's own line. Where everybody comes it stands on the card.
void check_unheld_groups(const program::Program& program, DiagnosticSink& sink);

}  // namespace stave::check
