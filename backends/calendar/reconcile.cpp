#include "backends/calendar/reconcile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <map>
#include <unordered_map>
#include <unordered_set>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/feed_format.hpp"

namespace stave::calendar {

namespace {

Moment start_of(const Event& event) {
    if (event.zone != nullptr) return {civil::resolve(*event.zone, event.start).instant, false};
    return {std::chrono::sys_seconds{event.start.time_since_epoch()}, true};
}

std::string start_key(const Moment& start) {
    return fmt::format("{}{}", start.instant.time_since_epoch().count(),
                       start.is_floating ? " floating" : "");
}

// Weeks since a Monday. `zone` may be null.
std::int64_t week_of(const Moment& start, const civil::Zone* zone) {
    const std::chrono::sys_days monday{std::chrono::year{1970} / 1 / 5};
    std::chrono::sys_seconds shown = start.instant;
    if (zone != nullptr && !start.is_floating) {
        shown = std::chrono::sys_seconds{civil::to_local(*zone, shown).time_since_epoch()};
    }
    return std::chrono::floor<std::chrono::weeks>(shown - monday).count();
}

class Reconciler {
public:
    Reconciler(std::span<const Event> events, std::span<const PreviousEvent> previous)
        : events_(events), previous_(previous), is_taken_(previous.size()) {
        pairing_.previous.resize(events.size());
        for (const Event& event : events)
            zones_.emplace(event.session, event.zone);
    }

    Pairing run(std::string_view feed_name) {
        pair_by_id();
        pair([](const Event& event) { return start_key(start_of(event)); },
             [](const PreviousEvent& before) { return start_key(before.start); }, 1);
        pair([this](const Event& event) { return week_key(event.session, start_of(event)); },
             [this](const PreviousEvent& before) {
                 return week_key(session_of(before.id), before.start);
             },
             1);
        pair([](const Event& event) { return event.session; },
             [](const PreviousEvent& before) { return std::string{session_of(before.id)}; },
             events_.size());
        name_all(feed_name);
        for (std::size_t i = 0; i < previous_.size(); ++i)
            if (!is_taken_[i]) pairing_.gone.push_back(i);
        return std::move(pairing_);
    }

private:
    using EventKey = std::function<std::string(const Event&)>;
    using PreviousKey = std::function<std::string(const PreviousEvent&)>;
    struct Candidates {
        std::vector<std::size_t> events;
        std::vector<std::size_t> previous;
    };

    void join(std::size_t event_id, std::size_t previous_id) {
        pairing_.previous[event_id] = previous_id;
        is_taken_[previous_id] = true;
    }

    void pair_by_id() {
        std::unordered_map<std::string_view, std::size_t> by_id;
        for (std::size_t i = 0; i < previous_.size(); ++i)
            by_id.emplace(previous_[i].id, i);
        for (std::size_t i = 0; i < events_.size(); ++i) {
            const auto found = by_id.find(events_[i].id);
            if (found != by_id.end()) join(i, found->second);
        }
    }

    // Pairs those that are left with the same key, where there are as many of both and at
    // most `most`. Those that do and those that do not take place are told apart.
    void pair(const EventKey& event_key, const PreviousKey& previous_key, std::size_t most) {
        if (std::ranges::find(is_taken_, false) == is_taken_.end()) return;
        std::map<std::string, Candidates> groups;
        for (std::size_t i = 0; i < events_.size(); ++i)
            if (!pairing_.previous[i]) groups[event_key(events_[i])].events.push_back(i);
        if (groups.empty()) return;
        for (std::size_t i = 0; i < previous_.size(); ++i) {
            if (is_taken_[i]) continue;
            const auto group = groups.find(previous_key(previous_[i]));
            if (group != groups.end()) group->second.previous.push_back(i);
        }
        for (auto& [key, group] : groups)
            pair_group(group, most);
    }

    void pair_group(Candidates& group, std::size_t most) {
        const bool are_held = std::ranges::all_of(
            group.events, [this](auto i) { return events_[i].status == EventStatus::confirmed; });
        if (are_held) {
            std::erase_if(group.previous, [this](auto i) { return previous_[i].is_cancelled; });
        }
        if (group.events.size() != group.previous.size() || group.events.size() > most) return;
        std::ranges::stable_sort(group.events, {}, [this](auto i) { return start_of(events_[i]); });
        std::ranges::stable_sort(group.previous, {}, [this](auto i) { return previous_[i].start; });
        for (std::size_t i = 0; i < group.events.size(); ++i)
            join(group.events[i], group.previous[i]);
    }

    std::string week_key(std::string_view session, const Moment& start) const {
        const auto zone = zones_.find(session);
        const std::int64_t week = week_of(start, zone == zones_.end() ? nullptr : zone->second);
        return fmt::format("{} {}", session, week);
    }

    void name_all(std::string_view feed_name) {
        std::unordered_set<std::string> used;
        for (const PreviousEvent& before : previous_)
            used.insert(before.uid);
        pairing_.uids.resize(events_.size());
        for (std::size_t i = 0; i < events_.size(); ++i) {
            if (pairing_.previous[i]) {
                pairing_.uids[i] = previous_[*pairing_.previous[i]].uid;
                continue;
            }
            std::string uid = mint(feed_name, events_[i].id, "");
            for (int number = 2; !used.insert(uid).second; ++number)
                uid = mint(feed_name, events_[i].id, fmt::format(".{}", number));
            pairing_.uids[i] = std::move(uid);
        }
    }

    static std::string mint(std::string_view feed_name, std::string_view id,
                            std::string_view ending) {
        return escape(
            clean(fmt::format("{}.{}{}@{}", feed_name, id, ending, uid_domain), Lines::one));
    }

    std::span<const Event> events_;
    std::span<const PreviousEvent> previous_;
    std::vector<bool> is_taken_;
    // The zone of each session, for what its weeks are.
    std::unordered_map<std::string_view, const civil::Zone*> zones_;
    Pairing pairing_;
};

}  // namespace

Pairing reconcile(std::string_view feed_name, std::span<const Event> events,
                  std::span<const PreviousEvent> previous) {
    return Reconciler(events, previous).run(feed_name);
}

}  // namespace stave::calendar
