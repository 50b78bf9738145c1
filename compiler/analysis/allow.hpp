// `allow` lines: problems that the coach has thought about and lets stand.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::analysis {

// Takes the warnings and notes out of the sink that the document allows: before the
// first session for the whole text, in a session for its lines. Reports what is
// wrong with the lines themselves, and those that nothing has met.
void apply_allowances(const syntax::Document& document, DiagnosticSink& sink);

}  // namespace stave::analysis
