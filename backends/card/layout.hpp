// Lays a session out on the pages of its card: one, or two where the session says so.
//
// What gives way where it is too long, and in which order, stands in layout_fit.hpp; a
// `card-cues-dropped` note names blocks whose cues are left out, and what does not fit
// at all is `card-overflow` or `pages-overflow`. A character that no face can draw is
// `glyph-missing`, one that runs from right to left `text-right-to-left`; movements that a
// technique side lacks are `technique-unknown`.
#pragma once

#include <optional>
#include <string>
#include <string_view>
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
    // The source's text, in which a sign that cannot be printed is looked for; without it
    // such a problem stands at the line that the text belongs to.
    std::string_view source = {};
};

// Nothing when the sink received an error.
[[nodiscard]] std::optional<std::vector<Page>> lay_out(const program::Program& program,
                                                       const program::Session& session,
                                                       const timeline::Timeline& timeline,
                                                       const CardText& text, Fonts& fonts,
                                                       DiagnosticSink& sink);

}  // namespace stave::card
