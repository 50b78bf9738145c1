#include "compiler/schedule/schedule.hpp"

#include <algorithm>
#include <set>
#include <span>
#include <string>
#include <utility>

#include "compiler/civil/date_text.hpp"
#include "compiler/schedule/feed_names.hpp"
#include "compiler/schedule/growth_checks.hpp"
#include "compiler/schedule/plan_checks.hpp"
#include "compiler/schedule/volume_checks.hpp"

namespace stave::schedule {

namespace {

using civil::clock_text;
using civil::date_text;

// The line that gives it its time.
Span time_span(const program::Plan& plan, const Occurrence& day) {
    for (const program::Move& move : plan.moves) {
        if (day.standing == Standing::moved && move.from == day.planned) return move.span;
    }
    return plan.slots[day.slot_id].span;
}

// One problem for each day; a session that is not held needs no hour.
void resolve(const program::Plan& plan, const civil::ZoneFinder& zones, std::span<Occurrence> days,
             DiagnosticSink& sink) {
    const civil::Zone* zone = plan.zone.empty() || !zones ? nullptr : zones(plan.zone);
    if (zone == nullptr) return;
    for (Occurrence& day : days) {
        const std::chrono::local_seconds local =
            std::chrono::local_days(day.date) + std::chrono::seconds(day.clock);
        const civil::LocalTime time = civil::resolve(*zone, local);
        if (time.kind == civil::LocalTimeKind::unique) {
            day.instant = time.instant;
            continue;
        }
        if (!is_on(day)) continue;
        const bool is_skipped = time.kind == civil::LocalTimeKind::skipped;
        sink.report({is_skipped ? Code::plan_time_skipped : Code::plan_time_repeated,
                     time_span(plan, day),
                     {clock_text(day.clock), zone->name, date_text(day.date),
                      clock_text(day.clock + std::chrono::hours{1})},
                     {},
                     {}});
    }
}

std::chrono::sys_time<std::chrono::minutes> begin_of(const Occurrence& day) {
    return std::chrono::sys_days(day.date) + day.clock;
}

std::chrono::sys_seconds end_of(const program::Plan& plan, const Occurrence& day) {
    const auto& limit = plan.slots[day.slot_id].time_limit;
    const std::int64_t seconds = limit ? std::max<std::int64_t>(ceil(in_base_units(*limit)), 1) : 1;
    return begin_of(day) + std::chrono::seconds{seconds};
}

std::string name_of(const program::Session& session) {
    return session.title.empty() ? "session " + session.number : session.title;
}

// Who comes is known by their names: it is looked at athlete by athlete.
bool names_people(const program::Program& program, const Occurrence& day) {
    return !program.athletes.empty() && !program.sessions[day.session_id].audience.empty();
}

// Sessions of the same people, one of which begins before the other ends; each line that gives one
// its time is told of once.
void check_overlaps(const program::Program& program, const program::Plan& plan,
                    std::span<const Occurrence> days, DiagnosticSink& sink) {
    const auto are_same_people = [&](const Occurrence& one, const Occurrence& other) {
        if (names_people(program, one) || names_people(program, other)) return false;
        const std::string& group = plan.slots[one.slot_id].group;
        const std::string& other_group = plan.slots[other.slot_id].group;
        return group.empty() || other_group.empty() || group == other_group;
    };
    std::set<std::uint32_t> told;
    // Days whose line has been told of: where very many overlap each is looked at once.
    std::vector<bool> is_told(days.size());
    for (std::size_t i = 0; i < days.size(); ++i) {
        const Occurrence& one = days[i];
        if (!is_on(one)) continue;
        const std::chrono::sys_seconds end = end_of(plan, one);
        for (std::size_t next = i + 1; next < days.size() && begin_of(days[next]) < end; ++next) {
            const Occurrence& other = days[next];
            if (is_told[next] || !is_on(other) || !are_same_people(one, other)) continue;
            is_told[next] = true;
            const Span span = time_span(plan, other);
            if (!told.insert(span.begin).second) continue;
            sink.report({Code::plan_overlap,
                         span,
                         {name_of(program.sessions[one.session_id]),
                          name_of(program.sessions[other.session_id]), date_text(one.date)},
                         {},
                         {}});
        }
    }
}

// No more days than that can come of it.
std::size_t most_of(const program::Plan& plan) {
    return plan.slots.size() * static_cast<std::size_t>(plan.weeks);
}

}  // namespace

std::vector<Occurrence> schedule(const program::Program& program, const civil::ZoneFinder& zones,
                                 DiagnosticSink& sink) {
    std::vector<Occurrence> all;
    std::size_t count = 0;
    for (const program::Plan& plan : program.plans)
        count += most_of(plan);
    // At once: a vector that grows takes the room of two.
    all.reserve(std::min(count, most_occurrences));
    for (std::uint32_t id = 0; id < program.plans.size(); ++id) {
        const program::Plan& plan = program.plans[id];
        sink.enter_session(plan.span.begin);
        if (all.size() + most_of(plan) > most_occurrences) {
            sink.report(
                {Code::plan_too_large, plan.span, {std::to_string(most_occurrences)}, {}, {}});
            break;
        }
        std::vector<Occurrence> days = lay_days(program, id);
        resolve(plan, zones, days, sink);
        check_lines(plan, sink);
        if (!check_held_twice(program, days, sink)) check_overlaps(program, plan, days, sink);
        check_growth(program, days, sink);
        check_volume(program, days, sink);
        all.insert(all.end(), std::make_move_iterator(days.begin()),
                   std::make_move_iterator(days.end()));
    }
    sink.enter_session(std::nullopt);
    check_feed_names(program, sink);
    // Nobody wants to be asked of it beside errors.
    if (!sink.has_errors()) check_zones(program, sink);
    return all;
}

}  // namespace stave::schedule
