#include "compiler/schedule/held_session.hpp"

#include <algorithm>
#include <string>
#include <utility>

#include "compiler/names/names.hpp"
#include "compiler/schedule/growing.hpp"
#include "compiler/schedule/lighter.hpp"

namespace stave::schedule {

namespace {

constexpr std::string_view group_word = "Group ";

bool is_of_groups(const program::Substitute& substitute) {
    return substitute.group.starts_with(group_word);
}

void add_new(std::vector<std::string>& texts, const std::vector<std::string>& more) {
    for (const std::string& text : more) {
        if (std::ranges::find(texts, text) == texts.end()) texts.push_back(text);
    }
}

// Words that stand below the line of a group are for everybody: none may get lost, since
// they may be what keeps people safe.
void gather_words(program::Item& item) {
    for (const program::Substitute& one : item.substitutes) {
        if (!is_of_groups(one)) continue;
        add_new(item.cues, one.item.cues);
        add_new(item.counts, one.item.counts);
        add_new(item.notes, one.item.notes);
        add_new(item.stops, one.item.stops);
        add_new(item.options, one.item.options);
        for (const program::Fault& fault : one.item.faults) {
            if (std::ranges::find(item.faults, fault) == item.faults.end())
                item.faults.push_back(fault);
        }
    }
}

// What the line of a group leaves unsaid is as the movement's line has it; lists of loads
// are made to fit its sets.
void inherit(program::Item& chosen, const program::Item& item) {
    chosen.cues = item.cues;
    chosen.faults = item.faults;
    chosen.counts = item.counts;
    chosen.notes = item.notes;
    chosen.stops = item.stops;
    chosen.options = item.options;
    chosen.rest_after = item.rest_after;
    if (!chosen.rest) chosen.rest = item.rest;
    if (!chosen.rest_between_sides) chosen.rest_between_sides = item.rest_between_sides;
    if (!chosen.tempo) chosen.tempo = item.tempo;
    if (!chosen.hold) chosen.hold = item.hold;
    if (!chosen.arc) chosen.arc = item.arc;
    if (chosen.sides == program::Sides{}) chosen.sides = item.sides;
    for (const program::Detail& detail : item.details) {
        // What belongs to the amounts themselves is not taken over with other amounts.
        const bool is_of_amounts = std::holds_alternative<program::Pieces>(detail) ||
                                   std::holds_alternative<program::Within>(detail) ||
                                   std::holds_alternative<program::LoadChange>(detail) ||
                                   std::holds_alternative<program::Incline>(detail);
        const bool is_said = std::ranges::any_of(chosen.details, [&](const program::Detail& own) {
            return own.index() == detail.index();
        });
        if (!is_of_amounts && !is_said) chosen.details.push_back(detail);
    }
    if (!chosen.loads.empty() || item.loads.empty()) return;
    chosen.loads = item.loads;
    if (chosen.loads.size() > 1) {
        const program::Load last = chosen.loads.back();
        chosen.loads.resize(chosen.set_count(), last);
    }
}

// The line of the group takes the place of the movement's own; those of other groups go.
void choose_line(program::Item& item, const std::string& folded_group) {
    gather_words(item);
    const auto own = std::ranges::find_if(item.substitutes, [&](const program::Substitute& one) {
        return is_of_groups(one) && fold_name(one.group) == folded_group;
    });
    if (own != item.substitutes.end()) {
        program::Item chosen = std::move(own->item);
        inherit(chosen, item);
        chosen.substitutes = std::move(item.substitutes);
        item = std::move(chosen);
    }
    std::erase_if(item.substitutes, is_of_groups);
}

// What growth and lighter weeks make of the session for its group.
program::Session grown_session(const program::Program& program, const Occurrence& occurrence) {
    const program::Plan& plan = program.plans[occurrence.plan_id];
    program::Session session = program.sessions[occurrence.session_id];
    for (const program::Growth& growth : plan.growths)
        grow(session, growth, occurrence.steps);
    if (occurrence.week.is_lighter) lighten(session, occurrence.less);
    const std::string& group = plan.slots[occurrence.slot_id].group;
    if (!group.empty()) choose_group(session, group);
    return session;
}

}  // namespace

void choose_group(program::Session& session, const std::string& group) {
    const std::string folded = fold_name(std::string(group_word) + group);
    for (program::Block& block : session.blocks) {
        for (program::Item& item : block.items)
            choose_line(item, folded);
    }
}

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
    session.plan_week = occurrence.week;
    session.group = slot.group;
    session.day = day_key(program, occurrence);
    if (session.place.empty()) session.place = plan.place;
    if (session.series.empty()) session.series = plan.name;
    return session;
}

}  // namespace stave::schedule
