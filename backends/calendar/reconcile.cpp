#include "backends/calendar/reconcile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <set>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/feed_format.hpp"
#include "compiler/source/text_hash.hpp"

namespace stave::calendar {

namespace {

Moment start_of(const EventOutline& event) {
    if (event.zone != nullptr) return {civil::resolve(*event.zone, event.start).instant, false};
    return {std::chrono::sys_seconds{event.start.time_since_epoch()}, true};
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

std::string mint(std::string_view feed_name, std::string_view id, std::string_view ending) {
    return escape(clean(fmt::format("{}.{}{}@{}", feed_name, id, ending, uid_domain), Lines::one));
}

// An event, or a previous one, that is not paired yet.
struct Single {
    std::uint32_t index = 0;
    std::uint64_t session = 0;
    Moment start;
    const civil::Zone* zone = nullptr;
    bool is_previous = false;
    // Takes place.
    bool is_held = true;
    bool has_begun = false;
};

// What singles of one group have in common: a hash, a number of weeks or seconds, and
// whether they float or have begun.
using Key = std::tuple<std::uint64_t, std::int64_t, bool>;

struct Keyed {
    Key key;
    Single single;
};

}  // namespace

class Reconciler {
public:
    Reconciler(const Feed& feed, const PreviousFeed& previous, std::chrono::sys_seconds now)
        : feed_(feed), previous_(previous), now_(now), is_taken_(previous.events.size()) {}

    Pairing run() {
        if (previous_.events.empty()) return {};
        pairing_.previous_.assign(feed_.events.size(), Pairing::none);
        pair_by_id();
        gather_singles();
        pair([](const Single& single) { return start_key(single); }, 1);
        find_zones();
        pair([this](const Single& single) { return week_key(single); }, 1);
        pair(
            [](const Single& single) {
                return Key{single.session, 0, single.has_begun};
            },
            feed_.events.size());
        name_all();
        for (std::uint32_t i = 0; i < previous_.events.size(); ++i)
            if (!is_taken_[i]) pairing_.gone_.push_back(i);
        return std::move(pairing_);
    }

private:
    void join(std::uint32_t event_id, std::uint32_t previous_id) {
        pairing_.previous_[event_id] = previous_id;
        is_taken_[previous_id] = true;
    }

    void pair_by_id() {
        std::vector<std::pair<std::uint64_t, std::uint32_t>> by_id;
        by_id.reserve(previous_.events.size());
        for (std::uint32_t i = 0; i < previous_.events.size(); ++i)
            by_id.emplace_back(previous_.events[i].id, i);
        std::ranges::sort(by_id);
        for (std::uint32_t i = 0; i < feed_.events.size(); ++i) {
            const std::uint64_t id = text_hash(feed_.events.outline(i).id);
            const auto found = std::ranges::lower_bound(
                by_id, id, {}, [](const auto& entry) { return entry.first; });
            if (found != by_id.end() && found->first == id) join(i, found->second);
        }
    }

    void gather_singles() {
        for (std::uint32_t i = 0; i < feed_.events.size(); ++i) {
            if (pairing_.previous_[i] != Pairing::none) continue;
            const EventOutline event = feed_.events.outline(i);
            const Moment start = start_of(event);
            singles_.push_back({i, text_hash(event.session), start, event.zone, false,
                                event.status == EventStatus::confirmed, !is_ahead(start, now_)});
        }
        if (singles_.empty()) return;
        for (std::uint32_t i = 0; i < previous_.events.size(); ++i) {
            if (is_taken_[i]) continue;
            const PreviousEvent& event = previous_.events[i];
            singles_.push_back({i, event.session, event.start, nullptr, true, !event.is_cancelled,
                                !is_ahead(event.start, now_)});
        }
    }

    [[nodiscard]] bool is_single(const Single& single) const {
        return single.is_previous ? !is_taken_[single.index]
                                  : pairing_.previous_[single.index] == Pairing::none;
    }

    // Pairs those that are left with the same key, where there are as many of both and at
    // most `most`. Those that do and those that do not take place are told apart.
    void pair(const std::function<Key(const Single&)>& key, std::size_t most) {
        std::vector<Keyed> keyed;
        for (const Single& single : singles_) {
            if (is_single(single)) keyed.push_back({key(single), single});
        }
        std::ranges::stable_sort(keyed, {}, [](const Keyed& one) {
            return std::tuple(one.key, one.single.is_previous, one.single.start);
        });
        for (auto begin = keyed.begin(); begin != keyed.end();) {
            const auto is_other = [&](const Keyed& one) { return one.key != begin->key; };
            const auto end = std::find_if(begin, keyed.end(), is_other);
            pair_group({begin, end}, most);
            begin = end;
        }
    }

    // Events before previous ones, each in the order of their starts.
    void pair_group(std::vector<Keyed> group, std::size_t most) {
        const auto is_event = [](const Keyed& one) { return !one.single.is_previous; };
        const bool are_held = std::ranges::all_of(
            group, [&](const Keyed& one) { return !is_event(one) || one.single.is_held; });
        if (are_held) {
            std::erase_if(group,
                          [&](const Keyed& one) { return !is_event(one) && !one.single.is_held; });
        }
        const auto count = static_cast<std::size_t>(std::ranges::count_if(group, is_event));
        if (count * 2 != group.size() || count > most) return;
        for (std::size_t i = 0; i < count; ++i)
            join(group[i].single.index, group[count + i].single.index);
    }

    static Key start_key(const Single& single) {
        return {0, single.start.instant.time_since_epoch().count(), single.start.is_floating};
    }

    // The zone of each session that is left, for what its weeks are.
    void find_zones() {
        if (std::ranges::none_of(singles_, [this](const Single& one) { return is_single(one); }))
            return;
        for (std::size_t i = 0; i < feed_.events.size(); ++i) {
            const EventOutline event = feed_.events.outline(i);
            zones_.emplace(text_hash(event.session), event.zone);
        }
    }

    [[nodiscard]] Key week_key(const Single& single) const {
        const auto zone = zones_.find(single.session);
        const civil::Zone* const its = zone == zones_.end() ? nullptr : zone->second;
        return {single.session, week_of(single.start, its), single.has_begun};
    }

    // Only where a plain UID is taken is there anything to remember.
    void name_all() {
        std::vector<std::uint64_t> known;
        known.reserve(previous_.events.size());
        for (const PreviousEvent& event : previous_.events)
            known.push_back(event.uid);
        std::ranges::sort(known);
        const auto is_known = [&](const std::string& uid) {
            return std::ranges::binary_search(known, text_hash(uid));
        };
        for (const Single& single : singles_) {
            if (single.is_previous || !is_single(single)) continue;
            const std::string id = feed_.events.outline(single.index).id;
            if (!is_known(mint(feed_.name, id, ""))) continue;
            std::string ending;
            for (int number = 2; ending.empty(); ++number) {
                std::string tried = fmt::format(".{}", number);
                if (!is_known(mint(feed_.name, id, tried)) && !is_id(id + tried))
                    ending = std::move(tried);
            }
            pairing_.endings_.emplace(single.index, std::move(ending));
        }
    }

    [[nodiscard]] bool is_id(std::string_view id) const {
        for (std::size_t i = 0; i < feed_.events.size(); ++i) {
            if (feed_.events.outline(i).id == id) return true;
        }
        return false;
    }

    const Feed& feed_;
    const PreviousFeed& previous_;
    std::chrono::sys_seconds now_;
    std::vector<bool> is_taken_;
    // Those that have no other of the same id.
    std::vector<Single> singles_;
    std::unordered_map<std::uint64_t, const civil::Zone*> zones_;
    Pairing pairing_;
};

std::string Pairing::new_uid(std::string_view feed_name, std::size_t event_id,
                             std::string_view id) const {
    const auto ending = endings_.find(event_id);
    return mint(feed_name, id, ending == endings_.end() ? "" : ending->second);
}

Pairing reconcile(const Feed& feed, const PreviousFeed& previous, std::chrono::sys_seconds now) {
    return Reconciler(feed, previous, now).run();
}

}  // namespace stave::calendar
