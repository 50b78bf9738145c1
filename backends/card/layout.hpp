// Lays a session out on one A4 page.
//
// One page always: where the session is too long, gaps shrink, then the room for
// notes goes, then all sizes go down by a tenth, then cues are dropped block by
// block from the densest (a `card-cues-dropped` note names the blocks), then the
// log column narrows, then sizes go down step by step to a floor of 7 pt; where
// that is not enough the session is refused with a `card-overflow` diagnostic that
// names the fullest block and says by how many millimetres. A character no face
// can draw is a `glyph-missing` diagnostic.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "backends/card/fonts.hpp"
#include "backends/card/page.hpp"
#include "backends/card/paper.hpp"
#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/timeline/timeline.hpp"
#include "compiler/wording/language.hpp"

namespace stave::card {

// What the page prints beside the session itself.
struct CardText {
    // Ties the paper to its source: the first hex digits of the source's hash.
    std::string revision;
    Paper paper = Paper::a4;
    // Further pages with how the movements go.
    bool has_technique = false;
    // Of the card's own words.
    wording::Language language = wording::Language::english;
};

// Nothing when the sink received an error.
[[nodiscard]] std::optional<std::vector<Page>> lay_out(const program::Program& program,
                                                       const program::Session& session,
                                                       const timeline::Timeline& timeline,
                                                       const CardText& text, Fonts& fonts,
                                                       DiagnosticSink& sink);

}  // namespace stave::card
