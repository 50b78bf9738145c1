#include <algorithm>
#include <string>
#include <utility>

#include "backends/card/layout_header.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using wording::Word;

// Where the title and what stands below it end.
Centipoints title_right(const Context& context) {
    const Grid& grid = context.grid();
    return context.sheet().has_fact_column ? grid.fact_label - 2 * grid.gutter : grid.right;
}

TextBlock title_block(const Context& context, Centipoints width) {
    TextBlock block;
    const auto& sizes = context.sheet().type.titles;
    for (const Centipoints size : sizes) {
        const TextStyle style{Face::condensed_bold, context.style.size(size)};
        block = wrap(context.fonts, {{style, title_of(context)}}, width);
        if (block.lines.size() <= (size == sizes.front() ? 1 : 2)) break;
    }
    return block;
}

// "page 1 of 2".
Run page_number(const Context& context, int page, Centipoints gap) {
    const std::string words =
        wording::said(context.language, Word::page_of,
                      {std::to_string(page), std::to_string(context.style.page_count)});
    return {page == 1 ? context.style.small() : context.style.plain(), words, gap};
}

// "Winter strength  SESSION 9" over the title; gives the bottom.
Centipoints draw_series(Piece& piece, const Context& context) {
    const program::Session& session = context.session;
    const TextStyle capitals = context.style.capitals();
    TextStyle number = capitals;
    number.grey = grey::black;
    std::vector<Run> runs;
    if (!session.series.empty())
        runs.push_back({{Face::medium, context.style.smallest()}, session.series});
    if (!session.number.empty() && !session.title.empty()) {
        runs.push_back(
            {capitals, std::string(context.word(Word::session_label)), context.style.across(9)});
        runs.push_back({number, session.number, blank(context.fonts, capitals)});
    }
    const std::string place = wording::plan_place(context.language, session);
    if (!place.empty()) runs.push_back({context.style.small(), place, context.style.across(9)});
    if (context.style.page_count > 1)
        runs.push_back(page_number(context, 1, context.style.across(9)));
    if (runs.empty()) return 0;
    const Grid& grid = context.grid();
    const TextBlock lines =
        wrap(context.fonts, runs, grid.fact_label - 2 * grid.gutter - grid.left);
    return draw(piece, grid.left, 0, lines) + points(1);
}

// The title, and the session's notes and cues below it.
Centipoints draw_title(Piece& piece, const Context& context) {
    const Style& style = context.style;
    const program::Session& session = context.session;
    const Centipoints left = context.grid().left;
    const Centipoints width = title_right(context) - left;
    const bool beside = context.sheet().has_fact_column;
    Centipoints y = draw_series(piece, context);
    if (!beside) y = std::max(y, draw_name_line(piece, context, 0));
    open(piece, Role::heading1);
    y = draw(piece, left, y, title_block(context, width)) + style.space(5);
    close(piece);
    if (!beside) y = draw_facts_in_words(piece, context, y) + style.space(4);
    for (const std::string& note : session.notes) {
        y = draw(piece, left, y, wrap(context.fonts, {{style.plain(), note}}, width));
    }
    return draw(piece, left, y, wrap(context.fonts, cue_paragraph(context, session.cues), width));
}

// "STOP" in white on black, as wide as a block's tab or as the word takes.
Centipoints chip_width(const Context& context) {
    const TextStyle capitals = context.style.capitals();
    const Centipoints word = context.fonts.measure(
        capitals.face, capitals.size, context.word(Word::stop_label), capitals.tracking);
    return std::max(context.grid().tab_width, word + points(5));
}

// Kit and what to stop for stand right of their word, under the heads of the blocks.
Centipoints kit_indent(const Context& context) {
    const Grid& grid = context.grid();
    const TextStyle capitals = context.style.capitals();
    const Centipoints word = context.fonts.measure(
        capitals.face, capitals.size, context.word(Word::kit_label), capitals.tracking);
    return std::max({grid.label - grid.left, chip_width(context) + points(6), word + points(6)});
}

// Lines of kit below the title, broken between things where possible.
Centipoints draw_kit(Piece& piece, const Context& context, Centipoints y) {
    const Style& style = context.style;
    const Centipoints left = context.grid().left + kit_indent(context);
    const Centipoints width = title_right(context) - left;
    std::vector<Run> runs;
    for (const program::KitThing& thing : context.session.kit) {
        if (!runs.empty()) runs.back().text += ',';
        runs.push_back({style.plain(),
                        unbroken(context.fonts, style.plain(),
                                 wording::kit(context.language, thing), width - points(3)),
                        blank(context.fonts, style.plain())});
    }
    open(piece, Role::paragraph);
    draw(piece, context.grid().left, y + ascent(style.plain().size), style.capitals(),
         context.word(Word::kit_label));
    y = draw(piece, left, y, wrap(context.fonts, runs, width)) + style.space(2);
    close(piece);
    return y;
}

Centipoints draw_stop(Piece& piece, const Context& context, Centipoints y,
                      const std::string& text) {
    const Style& style = context.style;
    const TextStyle words = style.number();
    TextStyle white = style.capitals();
    white.grey = grey::white;
    const Centipoints height = line_height(words.size);
    const Centipoints indent = kit_indent(context);
    const Centipoints left = context.grid().left;
    const Centipoints chip = chip_width(context);
    open(piece, Role::paragraph);
    piece.primitives.emplace_back(Box{left, y, chip, height, 0, grey::black, 0, grey::black});
    draw_centred(piece, context.fonts, left + chip / 2,
                 y + (height + capital_height(white.size)) / 2, white,
                 context.word(Word::stop_label));
    const TextBlock block =
        wrap(context.fonts, {{words, text}}, title_right(context) - left - indent);
    y = draw(piece, left + indent, y, block) + style.space(2);
    close(piece);
    return y;
}

}  // namespace

std::string title_of(const Context& context) {
    const program::Session& session = context.session;
    if (!session.title.empty()) return session.title;
    return wording::session_title(context.language, session);
}

Piece lay_out_header(const Context& context) {
    Piece piece;
    Centipoints y = draw_title(piece, context) + context.style.space(4);
    if (!context.session.kit.empty()) {
        y = draw_kit(piece, context, y);
    }
    for (const std::string& stop : context.session.stops) {
        y = draw_stop(piece, context, y, stop);
    }
    if (context.sheet().has_fact_column) y = std::max(y, draw_facts(piece, context));
    piece.height = y;
    return piece;
}

Piece lay_out_running_head(const Context& context) {
    const Style& style = context.style;
    const Grid& grid = context.grid();
    const TextStyle words = style.name();
    const TextBlock title =
        wrap(context.fonts, {{words, title_of(context)}, page_number(context, 2, points(7))},
             grid.fact_label - 2 * grid.gutter - grid.left);
    Piece piece;
    Centipoints y = draw(piece, grid.left, 0, title);
    if (context.sheet().is_written_on) y = std::max(y, draw_name_line(piece, context, 0));
    piece.height = y;
    return piece;
}

}  // namespace stave::card::layout
