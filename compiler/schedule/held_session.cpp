#include "compiler/schedule/held_session.hpp"

#include <string>
#include <utility>

#include "compiler/schedule/groups.hpp"
#include "compiler/schedule/growing.hpp"
#include "compiler/schedule/lighter.hpp"

namespace stave::schedule {

namespace {

// What growth and lighter weeks make of the session for its group.
program::Session grown_session(const program::Program& program, const Occurrence& occurrence) {
    const program::Plan& plan = program.plans[occurrence.plan_id];
    program::Session session = program.sessions[occurrence.session_id];
    for (const program::Growth& growth : plan.growths)
        grow(session, growth, occurrence.steps);
    if (occurrence.is_lighter) lighten(session, less_in(plan, occurrence.week));
    const std::string& group = plan.slots[occurrence.slot_id].group;
    if (!group.empty()) choose_group(session, group);
    return session;
}

}  // namespace

program::Session held_session(const program::Program& program, const Occurrence& occurrence) {
    const program::Plan& plan = program.plans[occurrence.plan_id];
    const program::PlanSlot& slot = plan.slots[occurrence.slot_id];
    program::Session session = grown_session(program, occurrence);
    program::When& when = session.when.emplace();
    when.date = occurrence.date;
    when.clock = occurrence.clock;
    when.time_limit = slot.time_limit;
    when.zone = plan.zone;
    when.instant = occurrence.instant;
    when.span = slot.span;
    session.plan_week = week_of(program, occurrence);
    session.group = slot.group;
    session.day = day_key(program, occurrence);
    if (session.place.empty()) session.place = plan.place;
    if (session.series.empty()) session.series = plan.name;
    return session;
}

}  // namespace stave::schedule
