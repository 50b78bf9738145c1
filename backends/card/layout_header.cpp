#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

constexpr Centipoints title_right = grid::fact_label - 2 * grid::gutter;

// Sizes a title may have; the first with which it takes two lines at most.
constexpr std::array title_sizes{40.0, 32.0, 25.0, 20.0, 16.0};

TextBlock title_block(const Context& context, Centipoints width) {
    TextBlock block;
    for (const double size : title_sizes) {
        const TextStyle style{Face::condensed_bold, context.style.size(size)};
        block = wrap(context.fonts, {{style, title_of(context.session)}}, width);
        if (block.lines.size() <= (size == title_sizes.front() ? 1 : 2)) break;
    }
    return block;
}

// "SESSION 9", the title, and the session's notes and cues below it.
Centipoints draw_title(Piece& piece, const Context& context) {
    const Style& style = context.style;
    const program::Session& session = context.session;
    const Centipoints width = title_right - grid::left;
    Centipoints y = 0;
    if (!session.number.empty() && !session.title.empty()) {
        const TextStyle capitals = style.capitals();
        TextStyle number = capitals;
        number.grey = grey::black;
        const TextBlock line =
            wrap(context.fonts,
                 {{capitals, "SESSION"}, {number, session.number, blank(context.fonts, capitals)}},
                 width);
        y = draw(piece, grid::left, y, line) + points(1);
    }
    y = draw(piece, grid::left, y, title_block(context, width)) + style.space(5);
    for (const std::string& note : session.notes) {
        y = draw(piece, grid::left, y, wrap(context.fonts, {{style.plain(), note}}, width));
    }
    const TextBlock cues = wrap(context.fonts, cue_paragraph(context, session.cues), width);
    return draw(piece, grid::left, y, cues);
}

struct Fact {
    std::string_view label;
    // Empty: a line to write on.
    std::string value;
    std::string more;
};

std::vector<Fact> facts(const Context& context) {
    const program::Session& session = context.session;
    std::vector<Fact> result{{"NAME", "", ""}};
    if (session.when) {
        result.push_back({"DATE", wording::date(session.when->date), ""});
        result.push_back({"TIME", wording::clock(session.when->clock), ""});
    } else {
        result.push_back({"DATE", "", ""});
    }
    if (!session.place.empty()) result.push_back({"PLACE", session.place, ""});
    if (!session.audience.empty()) {
        result.push_back({"FOR", wording::list(session.audience), ""});
    }
    std::string booked;
    if (session.when && session.when->time_limit) {
        booked = fmt::format("of {} booked", wording::quantity(*session.when->time_limit));
    }
    const std::string minutes =
        wording::quantity({timeline::minutes(context.timeline), Unit::minute});
    result.push_back({"ABOUT", minutes, booked});
    return result;
}

Centipoints draw_facts(Piece& piece, const Context& context) {
    const Style& style = context.style;
    const TextStyle value{Face::condensed_bold, style.size(13)};
    const Centipoints pitch = style.space(18.5);
    Centipoints y = 0;
    for (const Fact& fact : facts(context)) {
        const Centipoints baseline = y + ascent(value.size);
        draw(piece, grid::fact_label, baseline, style.capitals(), fact.label);
        if (fact.value.empty()) {
            dotted(piece, grid::fact_value, grid::right, baseline + points(1));
            y += pitch;
            continue;
        }
        std::vector<Run> runs{{value, fact.value}};
        if (!fact.more.empty()) runs.push_back({style.plain(), fact.more, points(5)});
        const TextBlock block = wrap(context.fonts, runs, grid::right - grid::fact_value);
        const Centipoints bottom = draw(piece, grid::fact_value, y, block);
        y = std::max(bottom, y + pitch);
    }
    return y;
}

// The text with no-break spaces for its blanks, where it fits the width at all.
std::string unbroken(const Context& context, const std::string& text, Centipoints width) {
    std::string joined;
    for (const char c : text) {
        if (c == ' ') {
            joined += "\u00A0";
        } else {
            joined += c;
        }
    }
    const TextStyle style = context.style.plain();
    // A comma may follow.
    const bool fits = context.fonts.measure(style.face, style.size, joined + ',') <= width;
    return fits ? joined : text;
}

// Lines of kit below the title, broken between things where possible.
Centipoints draw_kit(Piece& piece, const Context& context, Centipoints y) {
    const Style& style = context.style;
    const Centipoints width = title_right - grid::label;
    std::vector<Run> runs;
    for (const program::KitThing& thing : context.session.kit) {
        if (!runs.empty()) runs.back().text += ',';
        runs.push_back({style.plain(), unbroken(context, wording::kit(thing), width),
                        blank(context.fonts, style.plain())});
    }
    draw(piece, grid::left, y + ascent(style.plain().size), style.capitals(), "KIT");
    return draw(piece, grid::label, y, wrap(context.fonts, runs, width)) + style.space(2);
}

Centipoints draw_stop(Piece& piece, const Context& context, Centipoints y,
                      const std::string& text) {
    const Style& style = context.style;
    const TextStyle words{Face::medium, style.size(9.5)};
    TextStyle chip = style.capitals();
    chip.grey = grey::white;
    const Centipoints height = line_height(words.size);
    piece.primitives.emplace_back(
        Box{grid::left, y, grid::tab_width, height, 0, grey::black, 0, grey::black});
    draw_centred(piece, context.fonts, grid::left + grid::tab_width / 2,
                 y + (height + capital_height(chip.size)) / 2, chip, "STOP");
    const TextBlock block = wrap(context.fonts, {{words, text}}, title_right - grid::label);
    return draw(piece, grid::label, y, block) + style.space(2);
}

}  // namespace

std::string title_of(const program::Session& session) {
    if (!session.title.empty()) return session.title;
    return session.number.empty() ? "Session" : "Session " + session.number;
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
    piece.height = std::max(y, draw_facts(piece, context));
    return piece;
}

}  // namespace stave::card::layout
