#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "backends/report/plan_weeks.hpp"
#include "compiler/civil/date_text.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::report {

namespace {

using Json = nlohmann::ordered_json;
using civil::clock_text;
using civil::date_text;
using schedule::Occurrence;

std::string_view standing_word(schedule::Standing standing) {
    constexpr std::string_view words[] = {"held", "moved", "away", "cancelled"};
    return words[static_cast<std::size_t>(standing)];
}

Json to_json(const PlanView& view, std::size_t day_id) {
    const Occurrence& day = view.days[day_id];
    const program::PlanSlot& slot = view.program.plans[day.plan_id].slots[day.slot_id];
    const program::Session& session = view.program.sessions[day.session_id];
    Json object{{"date", date_text(day.date)},
                {"weekday", weekday_text(day.date)},
                {"clock", clock_text(day.clock)},
                {"number", session.number},
                {"title", session.title},
                {"session", session.slug},
                {"day", schedule::day_key(view.program, day)},
                {"group", slot.group},
                {"minutes", view.minutes[day_id]},
                {"standing", standing_word(day.standing)}};
    if (slot.time_limit)
        object["booked_minutes"] = to_decimal(convert(*slot.time_limit, Unit::minute).value, 1);
    if (day.standing == schedule::Standing::moved) object["planned"] = date_text(day.planned);
    if (!day.reason.empty()) object["reason"] = day.reason;
    return object;
}

Json to_json(const PlanView& view, const PlanWeekRows& week) {
    Json days = Json::array();
    for (const std::size_t day_id : week.days)
        days.push_back(to_json(view, day_id));
    Json growths = Json::array();
    for (const GrownTo& growth : week.growths)
        growths.push_back({{"what", growth.target}, {"at", growth.values}});
    Json sets = Json::array();
    for (const auto& [group, counts] : week.sets) {
        Json patterns = Json::object();
        for (std::size_t i = 0; i < counts.size(); ++i) {
            if (counts.at(i) > 0)
                patterns[std::string(grammar::pattern_name(static_cast<grammar::Pattern>(i)))] =
                    counts.at(i);
        }
        sets.push_back({{"group", group}, {"patterns", std::move(patterns)}});
    }
    return {{"week", week.week},
            {"lighter", week.is_lighter},
            {"days", std::move(days)},
            {"growth", std::move(growths)},
            {"sets", std::move(sets)}};
}

}  // namespace

std::string plan_json(std::span<const PlanView> views) {
    Json plans = Json::array();
    for (const PlanView& view : views) {
        if (view.days.empty()) continue;
        const program::Plan& plan = view.program.plans[view.days.front().plan_id];
        Json weeks = Json::array();
        for (const PlanWeekRows& week : plan_weeks(view))
            weeks.push_back(to_json(view, week));
        plans.push_back({{"name", plan.name},
                         {"from", date_text(plan.first)},
                         {"to", date_text(plan.last)},
                         {"zone", plan.zone},
                         {"weeks", std::move(weeks)}});
    }
    return plans.dump(2) + '\n';
}

}  // namespace stave::report
