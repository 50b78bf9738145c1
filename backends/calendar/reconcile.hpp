// Which event goes on which of the previous feed's: who keeps which UID.
//
// A UID is minted from the feed's name and the event's id when it is first published, and
// from then on kept from the previous feed. Events and previous events are paired, each
// once, by these rules one after the other:
//
// 1. the same id;
// 2. the same start, where one event and one previous one are left with it: a session
//    that was renamed, or given another number;
// 3. the same session in the same ISO week, where one and one are left: a session that was
//    moved within its week;
// 4. the same session, where as many events as previous ones are left: in the order of
//    their starts, a plan that was shifted.
//
// By the last two, what has begun goes on in what has begun alone: what athletes have done does
// not become something that they are still to do.
//
// A cancelled event is brought back by its id alone. Beyond the rules, and new events to
// athletes: a session without a number whose title and start both change between two
// builds; one of several sessions at the same moment that is renamed; a plan that is
// shifted and at once gets more or fewer of the same session.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "backends/calendar/feed.hpp"
#include "backends/calendar/previous.hpp"

namespace stave::calendar {

class Pairing {
public:
    // The index of the previous event that this one goes on.
    [[nodiscard]] std::optional<std::size_t> previous(std::size_t event_id) const {
        if (previous_.empty() || previous_[event_id] == none) return std::nullopt;
        return previous_[event_id];
    }
    // The previous events that none goes on, in their order.
    [[nodiscard]] const std::vector<std::uint32_t>& gone() const { return gone_; }
    // Of an event that goes on none: no two are alike, and none is that of a previous event.
    [[nodiscard]] std::string new_uid(std::string_view feed_name, std::size_t event_id,
                                      std::string_view id) const;

private:
    friend class Reconciler;
    static constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();

    // For each event; empty where there is no previous one.
    std::vector<std::uint32_t> previous_;
    std::vector<std::uint32_t> gone_;
    // Behind the id of events whose plain UID is another's.
    std::map<std::size_t, std::string> endings_;
};

[[nodiscard]] Pairing reconcile(const Feed& feed, const PreviousFeed& previous,
                                std::chrono::sys_seconds now);

}  // namespace stave::calendar
