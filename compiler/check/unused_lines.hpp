// Lines of routines that nobody uses: no session shows what is wrong with them.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// Reports the lines that no session holds, wherever they were used.
void check_unused(const syntax::Document& document, DiagnosticSink& sink);

}  // namespace stave::check
