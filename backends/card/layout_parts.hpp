// The parts of a card, each laid out on its own with its top at y = 0. Each
// takes the whole session and the style, and refuses nothing: what does not fit
// is the business of layout.cpp.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "backends/card/fonts.hpp"
#include "backends/card/layout.hpp"
#include "backends/card/layout_style.hpp"
#include "backends/card/layout_text.hpp"
#include "compiler/program/program.hpp"
#include "compiler/timeline/timeline.hpp"
#include "compiler/wording/words.hpp"

namespace stave::card::layout {

// What every part needs. The style changes from one attempt to the next.
struct Context {
    const program::Program& program;
    const program::Session& session;
    const timeline::Timeline& timeline;
    Fonts& fonts;
    Style style;
    wording::Language language = wording::Language::english;
    // The session's address as a code, made once for all attempts; null without one.
    const Modules* code = nullptr;

    [[nodiscard]] const Grid& grid() const { return style.grid(); }
    [[nodiscard]] const Sheet& sheet() const { return *style.sheet; }
    // One of the card's own words, in its language.
    [[nodiscard]] std::string_view word(wording::Word id) const {
        return wording::word(language, id);
    }
    // The same before a coach's words: "Stop:".
    [[nodiscard]] std::string label(wording::Word id) const {
        return std::string(word(id)).append(word(wording::Word::colon));
    }
};

// Title, date, place, kit, what to stop for, and the bar of the session's time.
[[nodiscard]] Piece lay_out_header(const Context& context);
// The head of a page that is not the first: the title again, and a line for the name.
[[nodiscard]] Piece lay_out_running_head(const Context& context);
[[nodiscard]] Piece lay_out_time_bar(const Context& context);

// One block: its letter, its head, then a table or a list to tick.
[[nodiscard]] Piece lay_out_block(const Context& context, std::uint32_t block_id);
// The body of a block below its head, as a table of sets or rounds.
[[nodiscard]] Piece lay_out_table(const Context& context, std::uint32_t block_id);
// The same as two columns to tick: warm-up and cool-down.
[[nodiscard]] Piece lay_out_list(const Context& context, std::uint32_t block_id);

// The end of the card: nothing, the effort scale with a line for notes in one row,
// or the scale and as many lines for notes as there is room for.
enum class Closing : std::uint8_t { none, row, full };
// `height` is at least the closing's own.
[[nodiscard]] Piece lay_out_closing(const Context& context, Closing closing, Centipoints height);
[[nodiscard]] Centipoints closing_height(const Style& style, Closing closing);
// Cautions and what ties the paper to its source.
[[nodiscard]] Piece lay_out_footer(const Context& context, const CardText& text);

// A block's length to the nearest minute, at least one, so that the lengths of
// the blocks add up to about the session's.
[[nodiscard]] std::string nearest_minutes(const Context& context, Ratio seconds);

// Big words of a session without a title: "Session 9".
[[nodiscard]] std::string title_of(const Context& context);

// How a movement is done: its details, then what comes behind it; a paragraph each.
[[nodiscard]] std::vector<std::vector<Run>> detail_words(const Context& context,
                                                         const program::Block& block,
                                                         const program::Item& item);
// Paragraphs that belong to a movement beside its cues, in the card's order:
// faults, counts, notes, stops and substitutes.
[[nodiscard]] std::vector<std::vector<Run>> remarks(const Context& context,
                                                    const program::Block& block,
                                                    const program::Item& item);
// The movement's own cues, then those of its definitions, each once, as one
// paragraph; empty where the block's cues are dropped.
[[nodiscard]] std::vector<Run> cue_words(const Context& context, std::uint32_t block_id,
                                         const program::Item& item);
// "If the hips rise: brace first".
[[nodiscard]] std::vector<Run> fault_paragraph(const Context& context, const program::Fault& fault);
// One paragraph of cues with points between them.
[[nodiscard]] std::vector<Run> cue_paragraph(const Context& context,
                                             const std::vector<std::string>& cues);
// "Stop" and what to stop for.
[[nodiscard]] std::vector<Run> stop_paragraph(const Context& context, const std::string& stop);

}  // namespace stave::card::layout
