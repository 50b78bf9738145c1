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
// A cancelled event is brought back by its id alone. Beyond the rules, and new events to
// athletes: a session without a number whose title and start both change between two
// builds; one of several sessions at the same moment that is renamed; a plan that is
// shifted and at once gets more or fewer of the same session.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "backends/calendar/feed.hpp"
#include "backends/calendar/previous.hpp"

namespace stave::calendar {

struct Pairing {
    // For each event, the index of the previous one that it goes on.
    std::vector<std::optional<std::size_t>> previous;
    // For each event; no two are alike, and none is that of another previous event.
    std::vector<std::string> uids;
    // The previous events that none goes on, in their order.
    std::vector<std::size_t> gone;
};

// The ids of the events are all different.
[[nodiscard]] Pairing reconcile(std::string_view feed_name, std::span<const Event> events,
                                std::span<const PreviousEvent> previous);

}  // namespace stave::calendar
