// What is said of a line that stands where it has no place: where it belongs, and what to
// do with it.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// Around the line that has no place there.
enum class Surroundings { session, definition, plan, athlete, squad, kit };

void report_not_here(const syntax::Line& line, Surroundings surroundings, DiagnosticSink& sink);

}  // namespace stave::check
