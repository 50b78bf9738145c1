// Which events of a feed are written in local time, and the VTIMEZONEs that they need.
#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <string_view>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/feed.hpp"
#include "backends/calendar/previous.hpp"
#include "backends/calendar/vtimezone.hpp"

namespace stave::calendar {

class UsedZones {
public:
    explicit UsedZones(const PreviousFeed& previous) : previous_(previous) {}

    // An event that is written again with the times it had; its zone, if any, is one of the
    // previous feed's.
    void keep(const PreviousEvent& event);

    // Whatever becomes of an event: the rules of its zone begin with the first year of all.
    void see(const EventOutline& event);

    // The rules of all zones; after the last event was seen or kept.
    void find();

    // Whether it may depend on the event if the feed has the VTIMEZONE of its zone.
    [[nodiscard]] bool is_open(const EventOutline& event) const;
    // Whether it may depend on any.
    [[nodiscard]] bool is_any_open() const;

    // Takes note that the times of the event are written.
    void use(const Event& event);

    // DTSTART and DTEND.
    [[nodiscard]] ContentLines times(const Event& event) const;

    // By name, so that their order does not depend on the events'.
    void append(ContentLines& lines) const;

private:
    struct Used {
        // Null where only kept events have it.
        const civil::Zone* zone = nullptr;
        std::chrono::year first_year{civil::last_year};
        std::optional<ZoneRules> rules;
        bool is_written = false;
    };

    static bool is_open(const Used& used) { return used.rules && !used.is_written; }
    [[nodiscard]] bool is_local(const Event& event) const;

    const PreviousFeed& previous_;
    std::map<std::string_view, Used> zones_;
};

}  // namespace stave::calendar
