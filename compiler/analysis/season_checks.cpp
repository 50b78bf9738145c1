#include "compiler/analysis/season_checks.hpp"

#include <algorithm>
#include <map>
#include <utility>
#include <vector>

#include "compiler/analysis/booked_time.hpp"
#include "compiler/analysis/issues.hpp"
#include "compiler/analysis/time_checks.hpp"

namespace stave::analysis {

namespace {

// Days of one session in one slot, from little growth to much: what one week has another
// has too if its steps are the same, and more steps make no session shorter.
class GrowingDays {
public:
    explicit GrowingDays(const Snapshot& snapshot)
        : snapshot_(snapshot), first_(snapshot.by_themselves.size()) {}

    // Days are added in their order.
    void add(std::size_t day_id) { by_steps_.emplace(snapshot_.season[day_id].steps, day_id); }

    [[nodiscard]] Issue last() const { return at(by_steps_.rbegin()->second); }

    // The first day by its steps that the function holds for, as it does for the last.
    template <typename Holds>
    [[nodiscard]] Issue first_that(const Holds& holds) const {
        std::vector<std::size_t> days;
        for (const auto& [steps, day_id] : by_steps_)
            days.push_back(day_id);
        const auto found = std::ranges::partition_point(
            days, [&](std::size_t day_id) { return !holds(at(day_id)); });
        return at(found == days.end() ? days.back() : *found);
    }

private:
    [[nodiscard]] Issue at(std::size_t day_id) const { return issue(snapshot_, first_ + day_id); }

    const Snapshot& snapshot_;
    std::size_t first_;
    std::map<std::int64_t, std::size_t> by_steps_;
};

bool is_too_long(const Issue& issue) {
    DiagnosticSink nowhere;
    return check_booked_time(issue.session(), issue.timeline(), nowhere);
}

// The days of one plan, from `first` to before `end`. A slot at a time: the same session elsewhere
// has other minutes booked. `is_full` has the sessions that fill their time already.
void check_plan(Snapshot& snapshot, std::size_t first, std::size_t end,
                std::vector<bool>& is_full) {
    using Place = std::pair<std::uint32_t, std::uint32_t>;
    std::map<Place, GrowingDays> places;
    for (std::size_t i = first; i < end; ++i) {
        const schedule::Occurrence& day = snapshot.season[i];
        if (day.is_lighter) continue;
        places.try_emplace(Place{day.session_id, day.slot_id}, snapshot).first->second.add(i);
    }
    for (const auto& [place, days] : places) {
        const Issue last = days.last();
        snapshot.sink.enter_session(last.session().span.begin);
        if (is_too_long(last)) {
            const Issue first_day = days.first_that(is_too_long);
            check_booked_time(first_day.session(), first_day.timeline(), snapshot.sink);
        }
        if (!is_full[place.first])
            is_full[place.first] = check_times(last.session(), last.timeline(), snapshot.sink);
    }
}

}  // namespace

void check_season(Snapshot& snapshot) {
    std::vector<bool> is_full;
    for (std::size_t i = 0; i < snapshot.timelines.size(); ++i) {
        const program::Session& session = snapshot.program.sessions[i];
        snapshot.sink.enter_session(session.span.begin);
        is_full.push_back(check_times(session, snapshot.timelines[i], snapshot.sink));
    }
    for (std::size_t first = 0; first < snapshot.season.size();) {
        const std::uint32_t plan_id = snapshot.season[first].plan_id;
        std::size_t end = first;
        while (end < snapshot.season.size() && snapshot.season[end].plan_id == plan_id)
            ++end;
        check_plan(snapshot, first, end, is_full);
        first = end;
    }
    snapshot.sink.enter_session(std::nullopt);
}

}  // namespace stave::analysis
