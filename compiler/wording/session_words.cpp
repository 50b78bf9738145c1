#include <fmt/format.h>

#include <array>

#include "compiler/wording/joining.hpp"
#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::wording {

namespace {

// The values are those of compiler/timeline/pace.cpp, where their sources stand
// in full.
std::string_view statement(timeline::AssumptionKind kind) {
    using enum timeline::AssumptionKind;
    switch (kind) {
        case counted_as_reps:
            return "A number without a unit counts repetitions";
        case default_rep_seconds:
            return "A repetition takes 3\u00A0s, the middle of moderate lifting speed (ACSM "
                   "position stand, Ratamess et al. 2009)";
        case default_step_cadence:
            return "Steps go at 100 a minute, a moderate walk (Tudor-Locke et al. 2019)";
        case default_breath_seconds:
            return "A breath takes 5\u00A0s (common practice, no source)";
        case default_carry_speed:
            return "A carry or walk goes at 1.2\u00A0m a second (common practice, no source)";
        case default_travel_speed:
            return "A run, ride or row goes at 2.5\u00A0m a second (common practice, no source)";
        case default_count_seconds:
            return "A stroke takes 3\u00A0s, a jump 1\u00A0s, a throw 5\u00A0s, a lap "
                   "60\u00A0s, a length 30\u00A0s, a flight 20\u00A0s (common practice, no "
                   "source)";
        case max_seconds:
            return "A set to max takes 30\u00A0s (common practice, no source)";
        case explosive_counts_one_second:
            return "X in a tempo counts 1\u00A0s";
        case range_counts_upper_end:
            return "A range counts its upper end";
        case kilocalorie_seconds:
            return "A kilocalorie takes 6\u00A0s (common practice, no source)";
        case at_least_counts_least:
            return "An amount or more counts its least";
        case best_of_seconds:
            return "A try takes 10\u00A0s (common practice, no source)";
        case build_up_sets:
            return "Building up takes 4 sets with 2\u00A0min between them (common practice, no "
                   "source)";
        case open_ladder_counts_first:
            return "An open ladder counts its first rung";
        case several_directions:
            return "One repetition goes once in each of its directions";
        case one_load_counted:
            return "A load that rises or falls counts as it is said";
        case rest_as_needed:
            return "A rest as needed takes 60\u00A0s (common practice, no source)";
        case walk_back_pace:
            return "Walking back goes at 1.2\u00A0m a second (common practice, no source)";
        case one_round_counted:
            return "As many rounds as possible take their time; amounts are those of one round";
        case no_rest_said:
            return "No rest is said, so none is counted";
        case no_change_time:
            break;
    }
    return "Changing stations and setting up take no time";
}

}  // namespace

std::string list(const std::vector<std::string>& texts) {
    return join(texts, ", ");
}

std::string kit(Language language, const program::KitThing& thing) {
    std::string text;
    if (thing.count != 1) text = std::to_string(thing.count).append(nbsp);
    text += thing.name;
    std::vector<std::string> sizes;
    for (const Ratio size : thing.sizes)
        sizes.push_back(decimal(language, size));
    if (sizes.empty()) return text;
    const std::string_view unit =
        thing.unit ? unit_word(language, *thing.unit, plural_of_list(language, thing.sizes.back()))
                   : "";
    append(text, " ", beside(join(sizes, nbsp), unit));
    return text;
}

std::string kit(Language language, std::span<const program::KitThing> things) {
    std::string text;
    for (const program::KitThing& thing : things)
        append(text, ", ", kit(language, thing));
    return text;
}

std::string duration(Language language, Ratio seconds) {
    const std::int64_t whole = floor(seconds + Ratio(1, 2));
    if (whole < 60) return beside(std::to_string(whole), "s");
    const std::int64_t minutes = whole / 60;
    if (minutes >= 60) {
        const std::int64_t rounded = (whole + 30) / 60;
        return fmt::format("{}{}h{}{:02}{}min", rounded / 60, nbsp, nbsp, rounded % 60, nbsp);
    }
    return clock_words(language, {minutes, Ratio(whole % 60)});
}

std::string_view stop_heading(Language language) {
    return word(language, Word::stop_heading);
}

std::string_view stop_signs(Language language) {
    return word(language, Word::stop_signs);
}

std::string assumption(const timeline::Assumption& assumption) {
    std::string text(statement(assumption.kind));
    if (!assumption.movements.empty()) text += ": " + join(assumption.movements, ", ");
    return text + '.';
}

std::string session_title(Language language, const program::Session& session) {
    if (session.number.empty() && !session.title.empty()) return session.title;
    if (session.number.empty()) return std::string(word(language, Word::session));
    if (session.title.empty()) return said(language, Word::session_numbered, {session.number});
    return said(language, Word::session_titled, {session.number, session.title});
}

std::string date(Language language, std::chrono::year_month_day date) {
    static constexpr std::array days{Word::sunday,   Word::monday, Word::tuesday, Word::wednesday,
                                     Word::thursday, Word::friday, Word::saturday};
    static constexpr std::array months{Word::january, Word::february, Word::march,
                                       Word::april,   Word::may,      Word::june,
                                       Word::july,    Word::august,   Word::september,
                                       Word::october, Word::november, Word::december};
    const std::chrono::weekday weekday{std::chrono::sys_days{date}};
    const unsigned day = static_cast<unsigned>(date.day());
    const unsigned month = static_cast<unsigned>(date.month());
    const std::string number =
        day == 1 ? std::string(word(language, Word::first_of_month)) : std::to_string(day);
    return said(language, Word::date,
                {word(language, days[weekday.c_encoding()]), number,
                 word(language, months[month - 1]), std::to_string(static_cast<int>(date.year()))});
}

std::string clock(std::chrono::minutes since_midnight) {
    return fmt::format("{:02}:{:02}", since_midnight.count() / 60, since_midnight.count() % 60);
}

std::string plan_place(Language language, const program::Session& session) {
    std::string text;
    const auto add = [&text](std::string_view words) {
        text += (text.empty() ? "" : ", ") + std::string(words);
    };
    if (session.plan_week) {
        add(said(
            language, Word::week_of,
            {std::to_string(session.plan_week->week), std::to_string(session.plan_week->weeks)}));
        if (session.plan_week->is_lighter) add(word(language, Word::lighter_week));
    }
    if (!session.group.empty()) add(said(language, Word::group_of, {session.group}));
    return text;
}

}  // namespace stave::wording
