#include "compiler/schedule/plan_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "compiler/civil/date_text.hpp"
#include "compiler/names/names.hpp"

namespace stave::schedule {

namespace {

using Date = std::chrono::year_month_day;
using civil::clock_text;
using civil::date_text;
using Clock = std::optional<std::chrono::minutes>;

bool may_be_same(Clock one, Clock other) {
    return !one || !other || *one == *other;
}

// The days off that a day and a time lie in; null for none.
const program::DaysOff* days_off_at(const program::Plan& plan, Date date, Clock clock) {
    const auto found = std::ranges::find_if(plan.days_off, [&](const program::DaysOff& off) {
        return date >= off.first && date <= off.last && may_be_same(off.clock, clock);
    });
    return found == plan.days_off.end() ? nullptr : &*found;
}

void check_move(const program::Plan& plan, const program::Move& move, DiagnosticSink& sink) {
    if (move.to < plan.first || move.to > plan.last) {
        sink.report({Code::moved_outside,
                     move.span,
                     {date_text(move.to), date_text(plan.first), date_text(plan.last)},
                     {},
                     {}});
    }
    // To another time of the same day it is moved from there.
    const Clock clock = move.to_clock ? move.to_clock : move.from_clock;
    const program::DaysOff* const after =
        move.to == move.from ? nullptr : days_off_at(plan, move.to, clock);
    const program::DaysOff* const off =
        after != nullptr ? after : days_off_at(plan, move.from, move.from_clock);
    if (off == nullptr) return;
    sink.report({Code::moved_away,
                 move.span,
                 {after != nullptr ? "to" : "from",
                  date_text(after != nullptr ? move.to : move.from), date_text(move.to)},
                 {},
                 {{off->span, "the days off"}}});
}

// Each line is told of once, at its first week that another has as well.
void check_lighter(const program::Plan& plan, DiagnosticSink& sink) {
    std::set<std::size_t> told;
    for (std::int64_t week = 1; week <= plan.weeks; ++week) {
        const program::LighterWeek* first = nullptr;
        for (std::size_t i = 0; i < plan.lighter_weeks.size(); ++i) {
            const program::LighterWeek& line = plan.lighter_weeks[i];
            if (!lightens(line, week)) continue;
            if (first != nullptr && told.insert(i).second) {
                const Ratio more = std::max(first->share, line.share);
                sink.report({Code::lighter_twice,
                             line.span,
                             {std::to_string(week), to_decimal(more * Ratio(100), 2) + " %"},
                             {},
                             {{first->span, "the other one"}}});
            }
            if (first == nullptr) first = &line;
        }
    }
}

void check_waves(const program::Plan& plan, DiagnosticSink& sink) {
    if (!plan.waves) return;
    if (plan.growths.empty()) {
        sink.report({Code::waves_idle,
                     plan.waves->span,
                     {"nothing in the plan grows",
                      "Say what grows: grow deadlift: 2.5 kg each week; or delete the waves."},
                     {},
                     {}});
        return;
    }
    std::int64_t growing = 0;
    for (std::int64_t week = 1; week <= plan.weeks; ++week) {
        const bool is_lighter = std::ranges::any_of(
            plan.lighter_weeks, [&](const auto& line) { return lightens(line, week); });
        if (!is_lighter) ++growing;
    }
    if (growing > plan.waves->weeks) return;
    sink.report({Code::waves_idle,
                 plan.waves->span,
                 {fmt::format("growth has {} {}, and a wave takes {}", growing,
                              growing == 1 ? "week" : "weeks", plan.waves->weeks),
                  "Make the waves shorter or the plan longer, or delete the waves."},
                 {},
                 {}});
}

std::string name_of(const program::Session& session) {
    return session.title.empty() ? "session " + session.number : session.title;
}

}  // namespace

void check_lines(const program::Plan& plan, DiagnosticSink& sink) {
    for (const program::Move& move : plan.moves)
        check_move(plan, move, sink);
    check_lighter(plan, sink);
    check_waves(plan, sink);
}

bool check_held_twice(const program::Program& program, std::span<const Occurrence> days,
                      DiagnosticSink& sink) {
    if (days.empty()) return false;
    const program::Plan& plan = program.plans[days.front().plan_id];
    // Groups as identities have them.
    std::vector<std::string> groups;
    for (const program::PlanSlot& slot : plan.slots)
        groups.push_back(slug(slot.group));
    using Entry =
        std::tuple<std::uint32_t, std::chrono::sys_days, std::chrono::minutes, std::string>;
    std::map<Entry, std::uint32_t> slots;
    std::set<std::uint32_t> told;
    for (const Occurrence& day : days) {
        const program::PlanSlot& slot = plan.slots[day.slot_id];
        const auto [known, added] = slots.emplace(
            Entry{day.session_id, day.planned, slot.clock, groups[day.slot_id]}, day.slot_id);
        if (added) continue;
        // Days of one time stand in the order of their slots, unless one of them was moved.
        const auto [first, second] = std::minmax(known->second, day.slot_id);
        if (!told.insert(second).second) continue;
        sink.report({Code::held_twice,
                     plan.slots[second].span,
                     {name_of(program.sessions[day.session_id]),
                      fmt::format("on {} at {}", date_text(day.planned), clock_text(slot.clock)),
                      "Delete one of the two lines, or say which group comes: group A"},
                     {},
                     {{plan.slots[first].span, "the first one"}}});
    }
    return !told.empty();
}

void check_zones(const program::Program& program, DiagnosticSink& sink) {
    std::string whose;
    std::string zone;
    for (const program::Plan& plan : program.plans) {
        if (!zone.empty() || plan.zone.empty()) continue;
        whose = "the plan " + plan.name;
        zone = plan.zone;
    }
    for (const program::Session& session : program.sessions) {
        if (!zone.empty() || !session.when || session.when->zone.empty()) continue;
        whose = name_of(session);
        zone = session.when->zone;
    }
    if (zone.empty()) return;
    for (const program::Plan& plan : program.plans) {
        if (!plan.zone.empty()) continue;
        sink.enter_session(plan.span.begin);
        sink.report({Code::plan_zone, plan.span, {plan.name, whose, zone}, {}, {}});
    }
    sink.enter_session(std::nullopt);
}

}  // namespace stave::schedule
