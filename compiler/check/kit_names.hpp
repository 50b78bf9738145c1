// Misspelt things in kit lines: kit goes by its name, so that a slip makes somebody lack what
// lies before them.
#pragma once

#include <vector>

#include "compiler/check/lines.hpp"
#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// Warns of each thing, in sessions' kit lines, athletes' and those of places, that is a slip
// away from what a movement of the file needs or from a kit with a name, and is called like
// none of them. The nearest is a fix.
void check_kit_names(const syntax::Document& document, const Definitions& definitions,
                     const std::vector<program::NamedKit>& kits, DiagnosticSink& sink);

}  // namespace stave::check
