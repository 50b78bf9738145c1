#include "compiler/analysis/people_checks.hpp"

#include <set>
#include <string>
#include <tuple>
#include <utility>

#include "compiler/analysis/issues.hpp"
#include "compiler/fit/people.hpp"

namespace stave::analysis {

namespace {

// What is said of a line whoever does it.
bool is_of_nobody(Code code) {
    return code == Code::rises_to_end;
}

// Whose problem, what, and where: those that only the day tells apart are one.
using Told = std::set<std::tuple<Code, std::uint32_t, std::uint32_t>>;

void check_issue(Snapshot& snapshot, const Issue& issue, const std::vector<std::uint32_t>& people,
                 Told& told) {
    snapshot.sink.enter_session(issue.session().span.begin);
    for (const std::uint32_t athlete_id : people) {
        DiagnosticSink found;
        static_cast<void>(
            fit::fit(snapshot.program, issue.session(), snapshot.outfits[athlete_id], "-", found));
        for (Diagnostic& problem : found.sorted()) {
            const std::uint32_t whose = is_of_nobody(problem.code) ? 0 : athlete_id;
            if (told.emplace(problem.code, whose, problem.span.begin).second)
                snapshot.sink.report(std::move(problem));
        }
    }
}

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

}  // namespace

void check_people(Snapshot& snapshot) {
    snapshot.outfits = fit::make_outfits(snapshot.program);
    if (snapshot.outfits.empty()) return;
    check_racks(snapshot);
    Told told;
    snapshot.people.resize(issue_count(snapshot));
    for (std::size_t id = 0; id < snapshot.people.size(); ++id) {
        const Issue one = issue(snapshot, id);
        snapshot.people[id] = fit::people_of(snapshot.program, one.session());
        if (one.is_held()) check_issue(snapshot, one, snapshot.people[id], told);
    }
    snapshot.sink.enter_session(std::nullopt);
}

}  // namespace stave::analysis
