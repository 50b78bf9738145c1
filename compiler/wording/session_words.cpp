#include <fmt/format.h>

#include <array>

#include "compiler/wording/joining.hpp"
#include "compiler/wording/wording.hpp"

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

std::string kit(Language, const program::KitThing& thing) {
    std::string text;
    if (thing.count != 1) text = std::to_string(thing.count).append(nbsp);
    text += thing.name;
    std::vector<std::string> sizes;
    for (const Ratio size : thing.sizes)
        sizes.push_back(to_decimal(size));
    const std::string_view unit = thing.unit ? plural(*thing.unit) : "";
    if (!sizes.empty()) append(text, " ", beside(join(sizes, nbsp), unit));
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

std::string_view stop_heading(Language) {
    return "Stop and tell the coach:";
}

std::string_view stop_signs(Language) {
    return "pain in chest, jaw or arm, feeling faint, breath you cannot catch, sudden weakness, a "
           "sharp pain in a joint. Call the emergency number if it does not pass within minutes.";
}

std::string assumption(const timeline::Assumption& assumption) {
    std::string text(statement(assumption.kind));
    if (!assumption.movements.empty()) text += ": " + join(assumption.movements, ", ");
    return text + '.';
}

std::string session_title(Language, const program::Session& session) {
    if (session.number.empty()) return session.title.empty() ? "Session" : session.title;
    if (session.title.empty()) return "Session " + session.number;
    return fmt::format("Session {}: {}", session.number, session.title);
}

std::string date(Language, std::chrono::year_month_day date) {
    static constexpr std::array<std::string_view, 7> days{"Sun", "Mon", "Tue", "Wed",
                                                          "Thu", "Fri", "Sat"};
    static constexpr std::array<std::string_view, 12> months{
        "January", "February", "March",     "April",   "May",      "June",
        "July",    "August",   "September", "October", "November", "December"};
    const std::chrono::weekday day{std::chrono::sys_days{date}};
    const unsigned month = static_cast<unsigned>(date.month());
    return fmt::format("{} {}{}{} {}", days[day.c_encoding()], static_cast<unsigned>(date.day()),
                       nbsp, months[month - 1], static_cast<int>(date.year()));
}

std::string clock(std::chrono::minutes since_midnight) {
    return fmt::format("{:02}:{:02}", since_midnight.count() / 60, since_midnight.count() % 60);
}

}  // namespace stave::wording
