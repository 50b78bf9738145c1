#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "backends/card/layout_header.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using wording::Word;

struct Fact {
    std::string_view label;
    // Empty: a line to write on.
    std::string value;
    std::string more;
};

bool is_over_time(const Context& context) {
    const auto& when = context.session.when;
    return when && when->time_limit &&
           Ratio(timeline::minutes(context.timeline) * 60) > in_base_units(*when->time_limit);
}

// "of 55 min booked", or "55 min booked" where it takes longer.
std::string booked(const Context& context) {
    const program::Session& session = context.session;
    if (!session.when || !session.when->time_limit) return "";
    return wording::said(context.language,
                         is_over_time(context) ? Word::only_booked : Word::of_booked,
                         {wording::quantity(context.language, *session.when->time_limit)});
}

std::string minutes(const Context& context) {
    return wording::quantity(context.language, {timeline::minutes(context.timeline), Unit::minute});
}

std::vector<Fact> facts(const Context& context) {
    const program::Session& session = context.session;
    const bool blanks = context.sheet().is_written_on;
    std::vector<Fact> result;
    const bool is_personal = !session.athlete.empty();
    if (blanks || is_personal)
        result.push_back({context.word(Word::name_label), session.athlete, ""});
    if (session.when) {
        result.push_back({context.word(Word::date_label),
                          wording::date(context.language, session.when->date), ""});
        result.push_back({context.word(Word::time_label), wording::clock(session.when->clock), ""});
    } else if (blanks) {
        result.push_back({context.word(Word::date_label), "", ""});
    }
    if (!session.place.empty())
        result.push_back({context.word(Word::place_label), session.place, ""});
    if (!session.audience.empty() && !is_personal) {
        result.push_back({context.word(Word::for_label), wording::list(session.audience), ""});
    }
    if (!session.coach.empty())
        result.push_back({context.word(Word::coach_label), session.coach, ""});
    result.push_back({context.word(Word::about_label), minutes(context), booked(context)});
    return result;
}

// Where a label that begins the column of facts ends.
Centipoints end_of_label(const Context& context, std::string_view label) {
    const TextStyle style = context.style.capitals();
    return context.grid().fact_label +
           context.fonts.measure(style.face, style.size, label, style.tracking);
}

// Of all facts: behind the longest label where a wide family's needs more than its column.
Centipoints values_left(const Context& context, const std::vector<Fact>& all) {
    Centipoints left = context.grid().fact_value;
    for (const Fact& fact : all)
        left = std::max(left, end_of_label(context, fact.label) + points(2));
    return left;
}

}  // namespace

Centipoints draw_facts(Piece& piece, const Context& context) {
    const Style& style = context.style;
    const Grid& grid = context.grid();
    const TextStyle value{Face::condensed_bold, style.size(context.sheet().type.fact)};
    const Centipoints pitch = style.space(18.5);
    const std::vector<Fact> all = facts(context);
    const Centipoints left = values_left(context, all);
    Centipoints y = 0;
    for (const Fact& fact : all) {
        const Centipoints baseline = y + ascent(value.size);
        draw(piece, grid.fact_label, baseline, style.capitals(), fact.label);
        if (fact.value.empty()) {
            dotted(piece, left, grid.right, baseline + points(1));
            y += pitch;
            continue;
        }
        std::vector<Run> runs{{value, fact.value}};
        if (!fact.more.empty()) runs.push_back({style.plain(), fact.more, style.across(5)});
        const TextBlock block = wrap(context.fonts, runs, grid.right - left);
        const Centipoints bottom = draw(piece, left, y, block);
        y = std::max(bottom, y + pitch);
    }
    return context.style.has_figures ? draw_patterns(piece, context, y) : y;
}

Centipoints draw_name_line(Piece& piece, const Context& context, Centipoints y) {
    const Style& style = context.style;
    const Grid& grid = context.grid();
    const std::string& athlete = context.session.athlete;
    const TextStyle own = style.number();
    const Centipoints size = athlete.empty() ? style.smallest() : own.size;
    const Centipoints baseline = y + ascent(size);
    const TextStyle capitals = style.capitals();
    const std::string_view name = context.word(Word::name_label);
    draw(piece, grid.fact_label, baseline, capitals, name);
    // A pocket's column is narrower than the longest of these words.
    const Centipoints left = std::max(grid.fact_value, end_of_label(context, name) + points(3));
    if (!athlete.empty())
        return draw(piece, left, y, wrap(context.fonts, {{own, athlete}}, grid.right - left));
    dotted(piece, left, grid.right, baseline + points(1));
    return y + line_height(style.smallest());
}

Centipoints draw_facts_in_words(Piece& piece, const Context& context, Centipoints y) {
    const Style& style = context.style;
    const program::Session& session = context.session;
    const auto said = [&](Word id, const std::string& text) {
        return wording::said(context.language, id, {text});
    };
    std::vector<std::string> words;
    if (session.when) {
        words.push_back(wording::date(context.language, session.when->date));
        words.push_back(wording::clock(session.when->clock));
    }
    if (!session.place.empty()) words.push_back(session.place);
    if (!session.audience.empty() && session.athlete.empty())
        words.push_back(said(Word::for_people, wording::list(session.audience)));
    if (!session.coach.empty()) words.push_back(said(Word::coach, session.coach));
    std::string length = said(Word::about, minutes(context));
    if (const std::string limit = booked(context); !limit.empty())
        length += (is_over_time(context) ? ", " : " ") + limit;
    words.push_back(length);
    const Centipoints width = context.grid().right - context.grid().left;
    std::vector<Run> runs;
    for (const std::string& word : words) {
        if (!runs.empty()) runs.back().text += "\u00A0·";
        runs.push_back({style.number(),
                        unbroken(context.fonts, style.number(), word, width - points(10)),
                        points(3)});
    }
    return draw(piece, context.grid().left, y, wrap(context.fonts, runs, width));
}

}  // namespace stave::card::layout
