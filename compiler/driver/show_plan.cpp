#include "compiler/driver/show_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "backends/report/plan_report.hpp"
#include "compiler/analysis/issues.hpp"

namespace stave::driver {

namespace {

// Of each day of the season.
std::vector<std::int64_t> minutes_of(const analysis::Snapshot& snapshot) {
    std::vector<std::int64_t> minutes;
    const std::size_t first = snapshot.by_themselves.size();
    for (std::size_t i = 0; i < snapshot.season.size(); ++i)
        minutes.push_back(timeline::minutes(analysis::issue(snapshot, first + i).timeline()));
    return minutes;
}

}  // namespace

void show_plans(const Loaded& loaded, bool json, Environment& environment) {
    std::vector<std::vector<std::int64_t>> minutes;
    for (const analysis::Snapshot& snapshot : loaded.snapshots)
        minutes.push_back(minutes_of(snapshot));
    std::vector<report::PlanView> views;
    for (std::size_t i = 0; i < loaded.snapshots.size(); ++i) {
        const analysis::Snapshot& snapshot = loaded.snapshots[i];
        if (snapshot.program.plans.empty() && !snapshot.sink.has_errors())
            environment.err << fmt::format("{} holds no plan\n", snapshot.source->path());
        std::size_t begin = 0;
        while (begin < snapshot.season.size()) {
            const std::uint32_t plan_id = snapshot.season[begin].plan_id;
            std::size_t end = begin;
            while (end < snapshot.season.size() && snapshot.season[end].plan_id == plan_id)
                ++end;
            views.push_back({snapshot.program,
                             std::span(snapshot.season).subspan(begin, end - begin),
                             std::span(minutes[i]).subspan(begin, end - begin)});
            begin = end;
        }
    }
    if (json) {
        environment.out << report::plan_json(views);
        return;
    }
    for (std::size_t i = 0; i < views.size(); ++i)
        environment.out << (i > 0 ? "\n" : "") << report::plan_text(views[i]);
}

}  // namespace stave::driver
