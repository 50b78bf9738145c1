#include "backends/report/plan_weeks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <string_view>
#include <tuple>

#include "compiler/schedule/groups.hpp"
#include "compiler/schedule/growing.hpp"
#include "compiler/schedule/held_session.hpp"

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

// Values with those who do them: nobody's name where everybody does.
using Named = std::vector<std::pair<std::string, std::string>>;

// Those who have no line of their own in a session for everybody.
constexpr std::string_view all_others = "others";

// "72.5 %"; where groups differ, "62.5 kg for group A and 52.5 kg for group B".
std::string told(const Named& values) {
    std::vector<std::string> texts;
    std::map<std::string, std::set<std::string>> names_of;
    std::set<std::string> names;
    for (const auto& [name, text] : values) {
        if (!names_of.contains(text)) texts.push_back(text);
        names_of[text].insert(name);
        if (!name.empty()) names.insert(name);
    }
    std::string told;
    for (const std::string& text : texts) {
        const std::set<std::string>& own = names_of[text];
        told += (told.empty() ? "" : " and ") + text;
        const bool is_plain = own.contains("") || own.contains(std::string(all_others));
        if (is_plain || own.size() == names.size()) continue;
        told += fmt::format(" for {}", fmt::join(own, " and "));
    }
    return told;
}

// What the plan's growths have come to in one of its sessions after so many steps.
class Grown {
public:
    Grown(const PlanView& view, const program::Plan& plan) : view_(view), plan_(plan) {}

    void add_to(PlanWeekRows& week) {
        std::vector<Named> values(plan_.growths.size());
        std::set<std::pair<std::uint32_t, std::string>> met;
        for (const std::size_t day_id : week.days) {
            const schedule::Occurrence& day = view_.days[day_id];
            if (!schedule::is_on(day) || !met.emplace(day.session_id, group_of(day)).second)
                continue;
            const std::vector<Named>& more = of(day);
            for (std::size_t i = 0; i < more.size(); ++i)
                values[i].insert(values[i].end(), more[i].begin(), more[i].end());
        }
        for (std::size_t i = 0; i < values.size(); ++i) {
            const Growth& growth = plan_.growths[i];
            // A lighter week has fewer of them than growth alone would give.
            const bool is_cut =
                week.is_lighter && (growth.of == GrowthOf::sets || growth.of == GrowthOf::rounds);
            if (!is_cut) week.growths.push_back({growth.target, told(values[i])});
        }
    }

private:
    [[nodiscard]] const std::string& group_of(const schedule::Occurrence& day) const {
        return plan_.slots[day.slot_id].group;
    }

    // Of each growth.
    const std::vector<Named>& of(const schedule::Occurrence& day) {
        const auto [found, added] =
            known_.try_emplace({day.session_id, day.steps, group_of(day)}, plan_.growths.size());
        if (added) find(day, found->second);
        return found->second;
    }

    void find(schedule::Occurrence day, std::vector<Named>& values) const {
        day.is_lighter = false;
        const program::Session session = schedule::held_session(view_.program, day);
        const std::string& group = group_of(day);
        if (!group.empty()) return add(session, "group " + group, values);
        const std::vector<std::string> named = schedule::named_in(session);
        if (named.empty()) return add(session, "", values);
        program::Session others = session;
        schedule::remove_lines(others);
        add(others, std::string(all_others), values);
        for (const std::string& whose : named) {
            program::Session own = session;
            schedule::choose_lines(own, whose);
            std::string name = whose;
            name.front() = static_cast<char>(name.front() - 'A' + 'a');
            add(own, name, values);
        }
    }

    // It has grown already.
    void add(const program::Session& session, const std::string& whose,
             std::vector<Named>& values) const {
        for (std::size_t i = 0; i < plan_.growths.size(); ++i) {
            const Growth& growth = plan_.growths[i];
            const auto grown = schedule::grown_values(session, growth, 0);
            if (!grown.empty()) values[i].emplace_back(whose, values_text(growth, grown));
        }
    }

    const PlanView& view_;
    const program::Plan& plan_;
    std::map<std::tuple<std::uint32_t, std::int64_t, std::string>, std::vector<Named>> known_;
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
