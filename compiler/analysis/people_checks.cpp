#include "compiler/analysis/people_checks.hpp"

#include <set>
#include <string>
#include <tuple>
#include <utility>

#include "compiler/analysis/issues.hpp"
#include "compiler/fit/people.hpp"

namespace stave::analysis {

namespace {

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
            if (told.emplace(problem.code, athlete_id, problem.span.begin).second)
                snapshot.sink.report(std::move(problem));
        }
    }
}

}  // namespace

void check_people(Snapshot& snapshot) {
    snapshot.outfits = fit::make_outfits(snapshot.program);
    if (snapshot.outfits.empty()) return;
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
