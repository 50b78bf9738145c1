#include "backends/card/layout.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "backends/card/layout_fit.hpp"
#include "backends/card/layout_glyphs.hpp"
#include "backends/card/layout_parts.hpp"
#include "backends/card/layout_technique.hpp"
#include "backends/card/qr.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card {

namespace {

using namespace layout;

// What is left over goes between the blocks, at most this much each.
constexpr double most_stretch = 9;

// The richest closing that has room below the blocks.
Closing closing_within(const Style& style, Centipoints room) {
    if (!style.sheet->is_written_on) return Closing::none;
    for (const Closing closing : {Closing::full, Closing::row}) {
        if (style.block_gap + closing_height(style, closing) <= room) return closing;
    }
    return Closing::none;
}

// Adds what is left over to the gaps between the blocks, so that the card ends at
// the foot of the page; lines for notes use it up themselves.
Centipoints stretched_gap(const Style& style, Closing closing, std::size_t blocks,
                          Centipoints left_over) {
    const auto gaps = static_cast<Centipoints>(blocks) + (closing == Closing::none ? 0 : 1);
    if (closing == Closing::full || gaps == 0) return style.block_gap;
    if (closing == Closing::row) left_over -= style.block_gap + closing_height(style, closing);
    return style.block_gap + std::min(left_over / gaps, style.space(most_stretch));
}

// What the bar of the session's time shows: "A Warm-up 5 min, B Haul 12 min".
std::string time_bar_words(const Context& context) {
    std::string words;
    for (std::size_t block_id = 0; block_id < context.session.blocks.size(); ++block_id) {
        const program::Block& block = context.session.blocks[block_id];
        if (!words.empty()) words += ", ";
        words += std::string(1, block.letter) + ' ' + wording::block_name(context.language, block) +
                 ' ' + nearest_minutes(context, context.timeline.blocks[block_id].length_seconds);
    }
    return words;
}

// Head and time bar of the first page, or the running head of another; gives the bottom.
Centipoints place_head(Piece& all, const Fitted& fitted, bool is_first) {
    const Parts& parts = fitted.parts;
    const Centipoints top = fitted.context.grid().top;
    const Piece& head = is_first ? parts.header : parts.running_head;
    if (is_first) {
        place(all, head, top);
    } else {
        place_artifact(all, head, top);
    }
    Centipoints y = top + head.height;
    if (!is_first || parts.time_bar.height == 0) return y;
    y += bar_gap(fitted.context.style);
    open(all, Role::figure, time_bar_words(fitted.context));
    place(all, parts.time_bar, y);
    close(all);
    return y + parts.time_bar.height;
}

Page page_of(const Context& context, Piece piece) {
    Page page;
    page.width = context.sheet().width;
    page.height = context.sheet().height;
    page.title = title_of(context);
    page.language = wording::tag(context.language);
    page.primitives = std::move(piece.primitives);
    return page;
}

Page assemble(const Fitted& fitted, std::size_t page_id) {
    const Context& context = fitted.context;
    const Style& style = context.style;
    const PageBlocks& blocks = fitted.pages[page_id];
    const bool is_last = page_id + 1 == fitted.pages.size();
    const Centipoints left_over = page_room(fitted) - page_height(fitted, blocks);
    const Closing closing = is_last ? closing_within(style, left_over) : Closing::none;
    const Centipoints gap = stretched_gap(style, closing, blocks.end - blocks.first, left_over);
    Piece all;
    Centipoints y = place_head(all, fitted, page_id == 0);
    for (std::size_t block_id = blocks.first; block_id < blocks.end; ++block_id) {
        y += gap;
        place(all, fitted.parts.blocks[block_id], y);
        y += fitted.parts.blocks[block_id].height;
    }
    y += gap;
    const Centipoints footer_top = context.grid().bottom - fitted.parts.footer.height;
    place(all, lay_out_closing(context, closing, footer_top - footer_gap - y), y);
    if (page_id == 0) {
        place(all, fitted.parts.footer, footer_top);
    } else {
        place_artifact(all, fitted.parts.footer, footer_top);
    }
    return page_of(context, std::move(all));
}

void add_technique(std::vector<Page>& pages, const Context& context, const CardText& text,
                   DiagnosticSink& sink) {
    for (Piece& piece : lay_out_technique(context, text))
        pages.push_back(page_of(context, std::move(piece)));
    const std::vector<std::string> names = without_steps(context.program, context.session);
    if (names.empty()) return;
    sink.report({Code::technique_unknown, context.session.span, {wording::list(names)}, {}, {}});
}

// Millimetres, rounded up: 1 mm is 72 / 25.4 pt.
std::int64_t millimetres(Centipoints length) {
    return ceil(Ratio(length, 100) * Ratio(254, 720));
}

// The block that takes the most room.
std::size_t tallest(const std::vector<Piece>& blocks) {
    const auto block = std::ranges::max_element(blocks, {}, &Piece::height);
    return static_cast<std::size_t>(block - blocks.begin());
}

void report_overflow(const Fitted& fitted, DiagnosticSink& sink) {
    const program::Session& session = fitted.context.session;
    std::string fullest = "the head of the card";
    Span span = session.span;
    Centipoints height = fitted.parts.header.height;
    if (!fitted.parts.blocks.empty()) {
        const std::size_t block_id = tallest(fitted.parts.blocks);
        const program::Block& block = session.blocks[block_id];
        height = fitted.parts.blocks[block_id].height;
        fullest = std::string("block ") + block.letter + ", " +
                  wording::block_name(wording::Language::english, block);
        span = block.span;
    }
    const Code code = session.pages > 1 ? Code::pages_overflow : Code::card_overflow;
    sink.report({code,
                 span,
                 {std::to_string(millimetres(fitted.excess)),
                  std::string(spoken_name(fitted.context.sheet().paper)), fullest,
                  std::to_string(millimetres(height))},
                 {},
                 {}});
}

// Nothing vanishes in silence.
void report_dropped_cues(const Fitted& fitted, DiagnosticSink& sink) {
    const std::vector<bool>& without = fitted.context.style.without_cues;
    std::vector<const program::Block*> blocks;
    for (std::size_t block_id = 0; block_id < without.size(); ++block_id) {
        if (without[block_id]) blocks.push_back(&fitted.context.session.blocks[block_id]);
    }
    if (blocks.empty()) return;
    std::string names;
    for (std::size_t index = 0; index < blocks.size(); ++index) {
        if (index > 0) names += index + 1 == blocks.size() ? " and " : ", ";
        names += std::string("block ") + blocks[index]->letter;
    }
    sink.report({Code::card_cues_dropped, blocks.front()->span, {names}, {}, {}});
}

}  // namespace

std::optional<std::vector<Page>> lay_out(const program::Program& program,
                                         const program::Session& session,
                                         const timeline::Timeline& timeline, const CardText& text,
                                         Fonts& fonts, DiagnosticSink& sink) {
    const std::size_t errors = sink.errors();
    check_glyphs(program, session, text, fonts, sink);
    if (sink.errors() > errors) return std::nullopt;
    Style style;
    style.sheet = &sheet_of(text.paper);
    style.log_width = style.sheet->log_width;
    // Nothing for an empty text, which is a session without an address.
    const std::optional<Modules> code = qr(session.link, style.sheet->code_module);
    const Fitted fitted = fit(
        {program, session, timeline, fonts, style, text.language, code ? &*code : nullptr}, text);
    if (fitted.excess > 0) {
        report_overflow(fitted, sink);
        return std::nullopt;
    }
    report_dropped_cues(fitted, sink);
    std::vector<Page> pages;
    for (std::size_t page_id = 0; page_id < fitted.pages.size(); ++page_id)
        pages.push_back(assemble(fitted, page_id));
    if (text.has_technique) add_technique(pages, fitted.context, text, sink);
    // The program's own faces have all of its words.
    if (!fonts.family().is_own()) check_own_words(pages, session, fonts, sink);
    if (sink.errors() > errors) return std::nullopt;
    return pages;
}

}  // namespace stave::card
