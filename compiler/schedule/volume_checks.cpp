#include "compiler/schedule/volume_checks.hpp"

#include <algorithm>
#include <map>
#include <string_view>
#include <tuple>

#include "compiler/schedule/groups.hpp"
#include "compiler/schedule/growing.hpp"
#include "compiler/schedule/lighter.hpp"

namespace stave::schedule {

namespace {

using program::BlockKind;

PatternSets pattern_sets(const program::Program& program, const program::Session& session) {
    PatternSets sets{};
    for (const program::Block& block : session.blocks) {
        if (block.kind == BlockKind::warm_up || block.kind == BlockKind::cool_down) continue;
        for (const program::Item& item : block.items) {
            const auto& definition = item.parts.front().definition;
            if (!definition) continue;
            const auto& patterns = program.movements[*definition].patterns;
            if (patterns.empty()) continue;
            sets.at(static_cast<std::size_t>(patterns.front())) +=
                static_cast<std::int64_t>(item.set_count());
        }
    }
    return sets;
}

// The session's sets after so many steps; what does not change them is left out.
PatternSets sets_after(const program::Program& program, const program::Plan& plan,
                       const Occurrence& day) {
    program::Session session = program.sessions[day.session_id];
    for (const program::Growth& growth : plan.growths) {
        const bool changes_sets =
            growth.of == program::GrowthOf::sets || growth.of == program::GrowthOf::rounds;
        if (changes_sets) grow(session, growth, day.steps);
    }
    if (day.is_lighter) lighten(session, less_in(plan, day.week));
    const std::string& group = plan.slots[day.slot_id].group;
    if (!group.empty()) choose_group(session, group);
    return pattern_sets(program, session);
}

// The first week of a pattern that jumps, and the one it is measured against; whether there
// is one.
bool check_pattern(const program::Plan& plan, const std::vector<PatternSets>& weeks,
                   std::size_t pattern, DiagnosticSink& sink) {
    constexpr std::int64_t least_jump = 4;
    // Where sessions take turns, weeks are alike only once all have had theirs.
    std::size_t turns = 1;
    for (const program::PlanSlot& slot : plan.slots)
        turns = std::max(turns, slot.session_ids.size());
    std::size_t highest = 0;
    for (std::size_t i = 1; i < weeks.size(); ++i) {
        const std::int64_t before = weeks[highest][pattern];
        const std::int64_t now = weeks[i][pattern];
        const bool jumps =
            i >= turns && before > 0 && now - before >= least_jump && 3 * now > 4 * before;
        if (jumps) {
            sink.report(
                {Code::volume_jump,
                 plan.span,
                 {std::to_string(i + 1), std::to_string(now),
                  std::string(grammar::pattern_name(static_cast<program::Pattern>(pattern))),
                  std::to_string(before), std::to_string(highest + 1)},
                 {},
                 {}});
            return true;
        }
        if (now > before) highest = i;
    }
    return false;
}

}  // namespace

std::vector<std::string> groups_of(const program::Plan& plan) {
    std::vector<std::string> groups;
    for (const program::PlanSlot& slot : plan.slots) {
        const bool is_known = std::ranges::find(groups, slot.group) != groups.end();
        if (!slot.group.empty() && !is_known) groups.push_back(slot.group);
    }
    if (groups.empty()) groups.emplace_back();
    return groups;
}

std::vector<PatternSets> weekly_sets(const program::Program& program,
                                     std::span<const Occurrence> days, const std::string& group) {
    std::vector<PatternSets> weeks;
    if (days.empty()) return weeks;
    const program::Plan& plan = program.plans[days.front().plan_id];
    weeks.resize(static_cast<std::size_t>(plan.weeks));
    const bool grow_sets = std::ranges::any_of(plan.growths, [](const program::Growth& growth) {
        return growth.of == program::GrowthOf::sets || growth.of == program::GrowthOf::rounds;
    });
    // Sessions that are alike in all that their sets depend on.
    using Likeness = std::tuple<std::uint32_t, std::int64_t, bool, bool>;
    std::map<Likeness, PatternSets> known;
    for (const Occurrence& day : days) {
        const std::string& whose = plan.slots[day.slot_id].group;
        const bool is_extra = plan.slots[day.slot_id].date.has_value();
        if (is_extra || (!whose.empty() && whose != group)) continue;
        const Likeness likeness{day.session_id, grow_sets ? day.steps : 0, day.is_lighter,
                                whose.empty()};
        auto found = known.find(likeness);
        if (found == known.end())
            found = known.emplace(likeness, sets_after(program, plan, day)).first;
        PatternSets& week = weeks[static_cast<std::size_t>(day.week - 1)];
        for (std::size_t pattern = 0; pattern < pattern_count; ++pattern)
            week.at(pattern) += found->second.at(pattern);
    }
    return weeks;
}

void check_volume(const program::Program& program, std::span<const Occurrence> days,
                  DiagnosticSink& sink) {
    if (days.empty()) return;
    const program::Plan& plan = program.plans[days.front().plan_id];
    // Groups have much in common; once is enough for each pattern.
    std::array<bool, pattern_count> is_said{};
    for (const std::string& group : groups_of(plan)) {
        const std::vector<PatternSets> weeks = weekly_sets(program, days, group);
        for (std::size_t pattern = 0; pattern < pattern_count; ++pattern) {
            if (!is_said.at(pattern))
                is_said.at(pattern) = check_pattern(plan, weeks, pattern, sink);
        }
    }
}

}  // namespace stave::schedule
