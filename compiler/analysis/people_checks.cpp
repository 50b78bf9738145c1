#include "compiler/analysis/people_checks.hpp"

#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>

#include "compiler/analysis/double_booked.hpp"
#include "compiler/analysis/issue_keys.hpp"
#include "compiler/analysis/issues.hpp"
#include "compiler/analysis/known_fits.hpp"
#include "compiler/civil/date_text.hpp"
#include "compiler/fit/people.hpp"

namespace stave::analysis {

namespace {

// What is said of a line whoever does it.
bool is_of_nobody(Code code) {
    return code == Code::rises_to_end;
}

// Whose problem, what, and where: those that only the day tells apart are one.
using Told = std::set<std::tuple<Code, std::uint32_t, std::uint32_t>>;

// What there is to say of fits, each once.
class FitChecks {
public:
    FitChecks(Snapshot& snapshot, KnownFits* known) : snapshot_(snapshot), known_(known) {
        if (known_ == nullptr) return;
        known_->begin_version();
        keys_.emplace(snapshot);
    }

    void check(const Issue& issue, std::size_t issue_id, const std::vector<std::uint32_t>& people) {
        snapshot_.sink.enter_session(issue.session().span.begin);
        for (const std::uint32_t athlete_id : people) {
            if (known_ == nullptr) {
                tell(issue, athlete_id);
                continue;
            }
            const WideHash key = keys_->with_all_movements(issue_id, athlete_id);
            if (known_->contains(key) || !tell(issue, athlete_id)) known_->add(key);
        }
    }

private:
    // Whether there is anything.
    bool tell(const Issue& issue, std::uint32_t athlete_id) {
        DiagnosticSink found;
        static_cast<void>(fit::fit(snapshot_.program, issue.session(),
                                   snapshot_.outfits[athlete_id], "-", found));
        for (Diagnostic& problem : found.sorted()) {
            const std::uint32_t whose = is_of_nobody(problem.code) ? 0 : athlete_id;
            if (told_.emplace(problem.code, whose, problem.span.begin).second)
                snapshot_.sink.report(std::move(problem));
        }
        return found.kept() > 0;
    }

    Snapshot& snapshot_;
    KnownFits* known_;
    std::optional<IssueKeys> keys_;
    Told told_;
};

// Of each kit once, at the first whose it is.
void check_racks(Snapshot& snapshot) {
    std::set<const fit::Racks*> told;
    for (const fit::Outfit& outfit : snapshot.outfits) {
        if (!outfit.racks->is_cut() || !told.insert(outfit.racks.get()).second) continue;
        const program::Athlete& athlete = snapshot.program.athletes[outfit.athlete_id];
        snapshot.sink.report({Code::kit_too_many,
                              athlete.span,
                              {athlete.name, std::to_string(loads::ReachableLoads::most_reachable)},
                              {},
                              {}});
    }
}

// Two plans that hold a session for one athlete on one day: their own feed would know both
// days by the same name.
class Entries {
public:
    explicit Entries(Snapshot& snapshot) : snapshot_(snapshot) {}

    void add(const Issue& issue, const std::vector<std::uint32_t>& people) {
        const schedule::Occurrence* const day = issue.occurrence();
        if (day == nullptr || snapshot_.program.plans.size() < 2) return;
        for (const std::uint32_t athlete_id : people) {
            const auto [known, added] = first_.emplace(
                std::tuple(athlete_id, day->session_id, issue.session().day), slot_of(*day));
            if (!added && told_.insert(slot_of(*day)).second)
                report(issue, athlete_id, known->second);
        }
    }

private:
    // Of which plan, and which of its slots.
    using Slot = std::pair<std::uint32_t, std::uint32_t>;

    static Slot slot_of(const schedule::Occurrence& day) { return {day.plan_id, day.slot_id}; }

    void report(const Issue& issue, std::uint32_t athlete_id, Slot first) {
        const program::Program& program = snapshot_.program;
        const program::Plan& plan = program.plans[issue.occurrence()->plan_id];
        const program::Plan& other = program.plans[first.first];
        const program::Session& session = issue.session();
        const std::string name =
            session.title.empty() ? "session " + session.number : session.title;
        snapshot_.sink.report({Code::held_twice,
                               plan.slots[issue.occurrence()->slot_id].span,
                               {name,
                                "on " + civil::date_text(issue.occurrence()->planned) + " for " +
                                    program.athletes[athlete_id].name,
                                "Take it out of one of the plans " + other.name + " and " +
                                    plan.name + ", or say in each which group comes: group A"},
                               {},
                               {{other.slots[first.second].span, "the first one"}}});
    }

    Snapshot& snapshot_;
    std::map<std::tuple<std::uint32_t, std::uint32_t, std::string>, Slot> first_;
    std::set<Slot> told_;
};

}  // namespace

void check_people(Snapshot& snapshot, KnownFits* known) {
    snapshot.outfits = fit::make_outfits(snapshot.program);
    if (snapshot.outfits.empty()) return;
    check_racks(snapshot);
    FitChecks fits(snapshot, known);
    Entries entries(snapshot);
    Bookings bookings;
    snapshot.people.resize(issue_count(snapshot));
    for (std::size_t id = 0; id < snapshot.people.size(); ++id) {
        const Issue one = issue(snapshot, id);
        snapshot.people[id] = fit::people_of(snapshot.program, one.session());
        entries.add(one, snapshot.people[id]);
        bookings.add(one, id);
        if (one.is_held()) fits.check(one, id, snapshot.people[id]);
    }
    bookings.report(snapshot);
    snapshot.sink.enter_session(std::nullopt);
}

}  // namespace stave::analysis
