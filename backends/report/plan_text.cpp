#include <fmt/format.h>

#include <algorithm>

#include "backends/report/columns.hpp"
#include "backends/report/plan_loads.hpp"
#include "backends/report/plan_weeks.hpp"
#include "compiler/civil/date_text.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::report {

namespace {

using civil::clock_text;
using civil::date_text;
using schedule::Occurrence;
using schedule::Standing;

std::string session_text(const PlanView& view, const Occurrence& day) {
    const program::Session& session = view.program.sessions[day.session_id];
    const std::string& group = view.program.plans[day.plan_id].slots[day.slot_id].group;
    std::string text = session.number.empty() ? "" : "session " + session.number;
    if (!session.title.empty()) text += (text.empty() ? "" : ": ") + session.title;
    if (text.empty()) text = "a session";
    return group.empty() ? text : text + ", group " + group;
}

// "cancelled: gale"; or from where it was moved; or nothing.
std::string standing_text(const PlanView& view, const Occurrence& day) {
    std::string why(schedule::reason_of(view.program, day));
    if (!why.empty()) why.insert(0, ": ");
    switch (day.standing) {
        case Standing::held:
            return "";
        case Standing::moved:
            return "moved from " + date_text(day.planned) + why;
        case Standing::away:
            return "away" + why;
        case Standing::cancelled:
            break;
    }
    return "cancelled" + why;
}

// "22 min of 55".
std::string minutes_text(const PlanView& view, std::size_t day_id) {
    const Occurrence& day = view.days[day_id];
    const auto& limit = view.program.plans[day.plan_id].slots[day.slot_id].time_limit;
    std::string text = fmt::format("{} min", view.minutes[day_id]);
    if (limit) text += " of " + to_decimal(convert(*limit, Unit::minute).value, 1);
    return text;
}

std::vector<std::string> row(const PlanView& view, std::size_t day_id) {
    const Occurrence& day = view.days[day_id];
    return {std::string(weekday_text(day.date)), date_text(day.date),     clock_text(day.clock),
            minutes_text(view, day_id),          session_text(view, day), standing_text(view, day)};
}

std::string sets_text(const schedule::PatternSets& sets) {
    std::string text;
    for (std::size_t pattern = 0; pattern < sets.size(); ++pattern) {
        if (sets.at(pattern) == 0) continue;
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ",
                            grammar::pattern_name(static_cast<grammar::Pattern>(pattern)),
                            sets.at(pattern));
    }
    return text;
}

std::string week_head(const PlanWeekRows& week, std::int64_t weeks) {
    std::string text = fmt::format("Week {} of {}", week.week, weeks);
    if (week.is_lighter) {
        constexpr std::int64_t percent = 100;
        text += fmt::format(", lighter by {} %", to_decimal(week.less * Ratio(percent), 1));
    }
    return text + '\n';
}

// Below its days: what has grown, and how the sets divide.
std::string week_foot(const PlanWeekRows& week) {
    std::string text;
    for (const GrownTo& growth : week.growths)
        text += fmt::format("{}{} {}", text.empty() ? "  grown to: " : ", ", growth.target,
                            growth.values);
    if (!text.empty()) text += '\n';
    for (const auto& [group, sets] : week.sets) {
        const std::string said = sets_text(sets);
        if (said.empty()) continue;
        text += group.empty() ? "  sets: " : fmt::format("  sets of group {}: ", group);
        text += said + '\n';
    }
    return text;
}

}  // namespace

std::string plan_text(const PlanView& view) {
    if (view.days.empty()) return "";
    const program::Plan& plan = view.program.plans[view.days.front().plan_id];
    std::string text =
        fmt::format("{}: {} {}, {} to {}{}\n", plan.name.empty() ? "The plan" : plan.name,
                    plan.weeks, plan.weeks == 1 ? "week" : "weeks", date_text(plan.first),
                    date_text(plan.last), plan.zone.empty() ? "" : ", " + plan.zone);
    // All weeks have the same columns.
    std::vector<std::vector<std::string>> rows;
    const auto weeks = plan_weeks(view);
    for (const PlanWeekRows& week : weeks) {
        for (const std::size_t day_id : week.days)
            rows.push_back(row(view, day_id));
    }
    const std::string table = columns(rows, 2);
    std::size_t begin = 0;
    for (const PlanWeekRows& week : weeks) {
        text += '\n' + week_head(week, plan.weeks);
        for (std::size_t i = 0; i < week.days.size(); ++i) {
            const std::size_t end = table.find('\n', begin) + 1;
            text += table.substr(begin, end - begin);
            begin = end;
        }
        text += week_foot(week);
    }
    return text + plan_loads_text(view);
}

}  // namespace stave::report
