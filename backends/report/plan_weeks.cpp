#include "backends/report/plan_weeks.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <string_view>

#include "compiler/schedule/growing.hpp"

namespace stave::report {

namespace {

using program::Growth;
using program::GrowthOf;

std::string unit_text(const Growth& growth, const Quantity& value) {
    const bool is_one = value.value == Ratio(1);
    if (growth.of == GrowthOf::sets) return is_one ? "set" : "sets";
    if (growth.of == GrowthOf::rounds) return is_one ? "round" : "rounds";
    return std::string(is_one ? singular(value.unit) : plural(value.unit));
}

// "8 reps" where all are alike, else "12-10-8 reps".
std::string values_text(const Growth& growth, const std::vector<Quantity>& values) {
    const bool alike =
        std::ranges::all_of(values, [&](const Quantity& value) { return value == values.front(); });
    std::string text;
    for (const Quantity& value : values) {
        if (!text.empty()) text += '-';
        text += to_decimal(value.value, 2);
        if (alike) break;
    }
    return text + ' ' + unit_text(growth, values.back());
}

// What the plan's growths have come to in one of its sessions after so many steps.
class Grown {
public:
    Grown(const PlanView& view, const program::Plan& plan) : view_(view), plan_(plan) {}

    void add_to(PlanWeekRows& week) {
        std::set<std::uint32_t> met;
        for (const std::size_t day_id : week.days) {
            const schedule::Occurrence& day = view_.days[day_id];
            if (schedule::is_on(day) && met.insert(day.session_id).second) add(of(day), week);
        }
    }

private:
    // One line of text for each growth, or "".
    using Values = std::vector<std::string>;

    // Values of several sessions stand beside each other.
    void add(const Values& values, PlanWeekRows& week) {
        const auto& growths = plan_.growths;
        week.growths.resize(growths.size());
        for (std::size_t i = 0; i < growths.size(); ++i) {
            // A lighter week has fewer of them than growth alone would give.
            const bool is_cut = week.is_lighter && (growths[i].of == GrowthOf::sets ||
                                                    growths[i].of == GrowthOf::rounds);
            GrownTo& grown = week.growths[i];
            grown.target = growths[i].target;
            if (is_cut || values[i].empty() || values[i] == grown.values) continue;
            grown.values += (grown.values.empty() ? "" : " and ") + values[i];
        }
    }

    const Values& of(const schedule::Occurrence& day) {
        const auto [found, added] = known_.try_emplace({day.session_id, day.steps});
        if (!added) return found->second;
        const program::Session& session = view_.program.sessions[day.session_id];
        for (const Growth& growth : plan_.growths) {
            const auto values = schedule::grown_values(session, growth, day.steps);
            found->second.push_back(values.empty() ? "" : values_text(growth, values));
        }
        return found->second;
    }

    const PlanView& view_;
    const program::Plan& plan_;
    std::map<std::pair<std::uint32_t, std::int64_t>, Values> known_;
};

}  // namespace

std::vector<PlanWeekRows> plan_weeks(const PlanView& view) {
    std::map<std::int64_t, PlanWeekRows> weeks;
    for (std::size_t i = 0; i < view.days.size(); ++i) {
        const schedule::Occurrence& day = view.days[i];
        PlanWeekRows& week = weeks[day.week];
        week.week = day.week;
        week.is_lighter = day.is_lighter;
        week.days.push_back(i);
    }
    if (weeks.empty()) return {};
    const program::Plan& plan = view.program.plans[view.days.front().plan_id];
    std::vector<schedule::Occurrence> held;
    std::ranges::copy_if(view.days, std::back_inserter(held), schedule::is_on);
    for (const std::string& group : schedule::groups_of(plan)) {
        auto sets = schedule::weekly_sets(view.program, held, group);
        sets.resize(static_cast<std::size_t>(plan.weeks));
        for (auto& [number, week] : weeks)
            week.sets.emplace_back(group, sets[static_cast<std::size_t>(number - 1)]);
    }
    Grown grown(view, plan);
    std::vector<PlanWeekRows> rows;
    for (auto& [number, week] : weeks) {
        week.less = schedule::less_in(plan, number);
        grown.add_to(week);
        std::erase_if(week.growths, [](const GrownTo& one) { return one.values.empty(); });
        rows.push_back(std::move(week));
    }
    return rows;
}

std::string_view weekday_text(std::chrono::year_month_day date) {
    constexpr std::string_view words[] = {"Sunday",   "Monday", "Tuesday", "Wednesday",
                                          "Thursday", "Friday", "Saturday"};
    return words[std::chrono::weekday{std::chrono::sys_days(date)}.c_encoding()];
}

}  // namespace stave::report
