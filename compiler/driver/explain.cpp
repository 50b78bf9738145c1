#include "compiler/driver/explain.hpp"

#include <vector>

#include "backends/report/people_report.hpp"
#include "backends/report/report.hpp"
#include "compiler/analysis/issues.hpp"
#include "compiler/driver/explain_floor.hpp"
#include "compiler/driver/readers.hpp"

namespace stave::driver {

namespace {

using report::AthleteVolume;

// Of those who do an issue that stands by itself; none where all do what is written.
std::vector<AthleteVolume> volumes_of(const analysis::Snapshot& snapshot, std::size_t issue_id) {
    std::vector<AthleteVolume> volumes;
    if (snapshot.people.empty()) return volumes;
    const analysis::Issue written = analysis::issue(snapshot, issue_id);
    const auto written_kilograms = volume_load(written.timeline()).kilograms.all();
    bool differs = false;
    for (const std::uint32_t athlete_id : snapshot.people[issue_id]) {
        const analysis::Issue own =
            issue_for(snapshot, issue_id, {.athlete_id = athlete_id}, wording::Language::english);
        volumes.push_back({own.athlete()->name, volume_load(own.timeline())});
        differs |= volumes.back().volume.kilograms.all() != written_kilograms;
    }
    if (!differs) volumes.clear();
    return volumes;
}

void explain_sessions(const Loaded& loaded, bool json, Environment& environment) {
    std::vector<report::SessionView> views;
    for (const analysis::Snapshot& snapshot : loaded.snapshots) {
        for (std::size_t i = 0; i < snapshot.timelines.size(); ++i) {
            views.push_back(
                {snapshot.program, snapshot.program.sessions[i], snapshot.timelines[i], {}});
        }
        const std::size_t first = views.size() - snapshot.timelines.size();
        if (snapshot.timelines.empty()) continue;
        for (std::size_t i = 0; i < snapshot.by_themselves.size(); ++i)
            views[first + snapshot.by_themselves[i]].athletes = volumes_of(snapshot, i);
    }
    if (json) {
        environment.out << report::explain_json(views);
        return;
    }
    for (std::size_t i = 0; i < views.size(); ++i)
        environment.out << (i > 0 ? "\n\n" : "") << report::explain_text(views[i]);
}

// One session after another, each with its athletes.
void explain_people(const Options& options, const analysis::Snapshot& snapshot,
                    Environment& environment) {
    for (const std::size_t id : analysis::held_issues(snapshot)) {
        if (snapshot.people.empty()) return;
        std::vector<analysis::Issue> issues;
        for (const std::uint32_t athlete_id : snapshot.people[id])
            issues.push_back(
                issue_for(snapshot, id, {.athlete_id = athlete_id}, wording::Language::english));
        std::vector<report::FittedView> views;
        for (const analysis::Issue& issue : issues) {
            views.push_back({issue.session(), *issue.athlete(), issue.fitted()->choices,
                             issue.fitted()->workings});
        }
        if (options.loads) environment.out << report::loads_text(views) << '\n';
        if (options.who) environment.out << report::who_text(views) << '\n';
    }
}

}  // namespace

void explain(const Options& options, Loaded& loaded, Environment& environment) {
    if (options.people > 0 || !options.squad.empty())
        return explain_floor(options, loaded, environment);
    if (!options.loads && !options.who) return explain_sessions(loaded, options.json, environment);
    for (const analysis::Snapshot& snapshot : loaded.snapshots)
        explain_people(options, snapshot, environment);
}

}  // namespace stave::driver
