// Whether the faces can draw every character of a session.
#pragma once

#include "backends/card/fonts.hpp"
#include "backends/card/layout.hpp"
#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::card::layout {

// Reports `glyph-missing` once for each text that holds such a character, at the
// item, block or session it belongs to.
void check_glyphs(const program::Program& program, const program::Session& session,
                  const CardText& text, const Fonts& fonts, DiagnosticSink& sink);

}  // namespace stave::card::layout
