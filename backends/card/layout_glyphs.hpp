// Whether the faces can draw every character of a session.
#pragma once

#include "backends/card/fonts.hpp"
#include "backends/card/layout.hpp"
#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::card::layout {

// Reports `glyph-missing`, or `text-right-to-left`, once for each text that holds such a
// character: at the character, or at the item, block or session it belongs to.
void check_glyphs(const program::Program& program, const program::Session& session,
                  const CardText& text, const Fonts& fonts, DiagnosticSink& sink);

// Reports `font-sign` for the first character of finished pages that their face draws as a
// box: one of the card's own words, since the session's texts have been looked through.
void check_own_words(const std::vector<Page>& pages, const program::Session& session, Fonts& fonts,
                     DiagnosticSink& sink);

}  // namespace stave::card::layout
