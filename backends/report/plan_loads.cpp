#include "backends/report/plan_loads.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "backends/report/columns.hpp"
#include "compiler/schedule/volume_checks.hpp"

namespace stave::report {

namespace {

using schedule::Occurrence;

std::string called(const program::Session& session) {
    if (!session.number.empty()) return "session " + session.number;
    return session.title.empty() ? "a session" : session.title;
}

bool is_for(const PlanView& view, const Occurrence& day, const std::string& group) {
    const std::string& whose = view.program.plans[day.plan_id].slots[day.slot_id].group;
    return schedule::is_on(day) && (whose.empty() || whose == group);
}

// The load of each day of the plan, from its first to its last; days of rest are 0. What was
// moved out of the plan counts on none of them.
std::vector<Ratio> daily_loads(const PlanView& view, const std::string& group) {
    const program::Plan& plan = view.program.plans[view.days.front().plan_id];
    const std::chrono::sys_days first{plan.first};
    const auto count = (std::chrono::sys_days{plan.last} - first).count() + 1;
    std::vector<Ratio> loads(static_cast<std::size_t>(count));
    for (std::size_t i = 0; i < view.days.size(); ++i) {
        const Occurrence& day = view.days[i];
        const auto& effort = view.program.sessions[day.session_id].effort;
        const auto place = (std::chrono::sys_days{day.date} - first).count();
        if (!effort || !is_for(view, day, group) || place < 0 || place >= count) continue;
        loads[static_cast<std::size_t>(place)] += loads::session_load(*effort, view.minutes[i]);
    }
    return loads;
}

PlanWeekLoad week_after(std::span<const Ratio> days, std::size_t begin) {
    using loads::acute_days;
    using loads::chronic_days;
    PlanWeekLoad week;
    const auto last = days.subspan(begin);
    if (last.size() == loads::week_days) {
        const loads::WeekLoad whole = loads::week_load(last.first<loads::week_days>());
        week.monotony = whole.monotony;
        week.strain = whole.strain;
    }
    for (const Ratio day : last)
        week.load += day;
    week.mean_7 = loads::mean_of_last(days, acute_days);
    week.mean_28 = loads::mean_of_last(days, chronic_days);
    week.mean_before = loads::mean_of_last(days, chronic_days - acute_days, acute_days);
    week.coupled = loads::load_ratio(week.mean_7, week.mean_28);
    week.uncoupled = loads::load_ratio(week.mean_7, week.mean_before);
    return week;
}

std::vector<PlanWeekLoad> weeks_of(const std::vector<Ratio>& days) {
    const auto acute = loads::weighted_averages(days, loads::acute_days);
    const auto chronic = loads::weighted_averages(days, loads::chronic_days);
    std::vector<PlanWeekLoad> weeks;
    for (std::size_t begin = 0; begin < days.size(); begin += loads::week_days) {
        const std::size_t end = std::min(begin + loads::week_days, days.size());
        PlanWeekLoad week = week_after(std::span(days).first(end), begin);
        week.week = static_cast<std::int64_t>(weeks.size()) + 1;
        week.average_7 = acute[end - 1];
        week.average_28 = chronic[end - 1];
        week.of_averages = loads::load_ratio(week.average_7, week.average_28);
        weeks.push_back(week);
    }
    return weeks;
}

std::vector<std::string> unsaid_in(const PlanView& view, const std::string& group) {
    std::vector<std::string> names;
    for (const Occurrence& day : view.days) {
        const program::Session& session = view.program.sessions[day.session_id];
        if (session.effort || !is_for(view, day, group)) continue;
        const std::string name = called(session);
        if (std::ranges::find(names, name) == names.end()) names.push_back(name);
    }
    return names;
}

std::string figure(const std::optional<Ratio>& value, int places) {
    return value ? to_decimal(*value, places) : "-";
}

std::vector<std::string> row(const PlanWeekLoad& week) {
    return {
        std::to_string(week.week),      to_decimal(week.load, 1),   figure(week.monotony, 2),
        figure(week.strain, 0),         figure(week.mean_7, 1),     figure(week.mean_28, 1),
        figure(week.coupled, 2),        figure(week.uncoupled, 2),  to_decimal(week.average_7, 1),
        to_decimal(week.average_28, 1), figure(week.of_averages, 2)};
}

std::string loads_table(const PlanLoads& loads) {
    std::vector<std::vector<std::string>> rows{{"week", "load", "monotony", "strain", "mean 7 d",
                                                "mean 28 d", "7:28", "7:8-28", "EWMA 7", "EWMA 28",
                                                "EWMA 7:28"}};
    for (const PlanWeekLoad& week : loads.weeks)
        rows.push_back(row(week));
    return columns(rows, 2);
}

// Each on a line of its own.
std::string sentences(std::string_view text) {
    constexpr std::string_view end = ". ";
    std::string lines;
    for (std::size_t at = text.find(end); at != std::string_view::npos; at = text.find(end)) {
        lines += fmt::format("  {}.\n", text.substr(0, at));
        text.remove_prefix(at + end.size());
    }
    return lines + fmt::format("  {}\n", text);
}

}  // namespace

std::vector<PlanLoads> plan_loads(const PlanView& view) {
    std::vector<PlanLoads> all;
    const bool any = std::ranges::any_of(view.days, [&](const Occurrence& day) {
        return view.program.sessions[day.session_id].effort.has_value();
    });
    if (!any) return all;
    for (const std::string& group :
         schedule::groups_of(view.program.plans[view.days.front().plan_id])) {
        PlanLoads loads{group, unsaid_in(view, group), {}};
        if (loads.unsaid.empty()) loads.weeks = weeks_of(daily_loads(view, group));
        all.push_back(std::move(loads));
    }
    return all;
}

std::string plan_loads_text(const PlanView& view) {
    const auto all = plan_loads(view);
    if (all.empty()) return "";
    std::string text;
    for (const PlanLoads& loads : all) {
        text += loads.group.empty() ? "\nTraining load\n"
                                    : fmt::format("\nTraining load of group {}\n", loads.group);
        if (loads.unsaid.empty()) {
            text += loads_table(loads);
            continue;
        }
        std::string names;
        for (const std::string& name : loads.unsaid)
            names += (names.empty() ? "" : ", ") + name;
        text += fmt::format("  not reckoned, since no effort is said: {}\n", names);
    }
    return text + sentences(loads_are_contested);
}

}  // namespace stave::report
