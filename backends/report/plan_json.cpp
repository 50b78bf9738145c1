#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "backends/report/plan_loads.hpp"
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
    if (session.effort) object["effort"] = to_decimal(*session.effort, 4);
    if (slot.time_limit)
        object["booked_minutes"] = to_decimal(convert(*slot.time_limit, Unit::minute).value, 1);
    if (day.standing == schedule::Standing::moved) object["planned"] = date_text(day.planned);
    if (const auto reason = schedule::reason_of(view.program, day); !reason.empty())
        object["reason"] = reason;
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

// Rounded figures are decimals; what is undefined is null.
Json figure(const std::optional<Ratio>& value) {
    constexpr int places = 4;
    return value ? Json(to_decimal(*value, places)) : Json();
}

Json to_json(const PlanWeekLoad& week) {
    return {{"week", week.week},
            {"load", figure(week.load)},
            {"monotony", figure(week.monotony)},
            {"strain", figure(week.strain)},
            {"mean_7_days", figure(week.mean_7)},
            {"mean_28_days", figure(week.mean_28)},
            {"mean_days_8_to_28", figure(week.mean_before)},
            {"coupled_ratio", figure(week.coupled)},
            {"uncoupled_ratio", figure(week.uncoupled)},
            {"ewma_7", figure(week.average_7)},
            {"ewma_28", figure(week.average_28)},
            {"ewma_ratio", figure(week.of_averages)}};
}

// Null where no session says an effort.
Json loads_json(const PlanView& view) {
    const auto all = plan_loads(view);
    if (all.empty()) return {};
    Json groups = Json::array();
    for (const PlanLoads& loads : all) {
        Json weeks = Json::array();
        for (const PlanWeekLoad& week : loads.weeks)
            weeks.push_back(to_json(week));
        groups.push_back({{"group", loads.group},
                          {"without_effort", loads.unsaid},
                          {"weeks", std::move(weeks)}});
    }
    return {{"remark", loads_are_contested}, {"groups", std::move(groups)}};
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
                         {"weeks", std::move(weeks)},
                         {"training_load", loads_json(view)}});
    }
    return plans.dump(2) + '\n';
}

}  // namespace stave::report
