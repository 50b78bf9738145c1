// The weeks of a plan: which are lighter, and in what waves its growth goes.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// Each adds its line to the plan if nothing is wrong; false after a problem has been reported.
// `has_days`: it is known how many weeks the plan has.
bool add_lighter(const syntax::Line& line, program::Plan& plan, bool has_days,
                 DiagnosticSink& sink);
bool add_waves(const syntax::Line& line, program::Plan& plan, DiagnosticSink& sink);

}  // namespace stave::check
