// What a feed's previous text knows of its events: the state from which the next text
// goes on. There is no other.
//
// Takes a text that this program wrote, with any line ends. Refuses other programs'
// calendars, feeds that are cut short or otherwise damaged, and those of a later version:
// writing over them would lose what they know.
#pragma once

#include <chrono>
#include <cstdint>
#include <expected>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "backends/calendar/content_line.hpp"
#include "compiler/civil/zone.hpp"

namespace stave::calendar {

// A point in time. Of floating times, and of those whose zone is not known here, only the
// wall clock is known: `instant` is then what it would be in UTC.
struct Moment {
    std::chrono::sys_seconds instant;
    bool is_floating = false;

    friend auto operator<=>(const Moment&, const Moment&) = default;
};

// Whether the moment may still lie ahead anywhere on earth.
[[nodiscard]] bool is_ahead(const Moment& moment, std::chrono::sys_seconds now);

// Views are into the text that was read.
struct PreviousEvent {
    std::string uid;
    // Event::id as it was when this was written.
    std::string id;
    std::int64_t sequence = 0;
    std::chrono::sys_seconds created;
    std::chrono::sys_seconds stamp;
    Moment start;
    Moment end;
    std::chrono::year first_year{0};
    bool is_cancelled = false;
    // Its TZID, or empty.
    std::string_view zone;
    // The VEVENT's lines behind those of its state, as they stand.
    std::string_view content;
};

struct PreviousZone {
    std::string_view name;
    // The whole VTIMEZONE, as it stands.
    std::string_view text;
};

// The text must outlive it.
struct PreviousFeed {
    std::vector<PreviousEvent> events;
    std::vector<PreviousZone> zones;
};

enum class FeedFault { foreign, damaged, newer };

// `zones` tells when events with a zone begin and end.
[[nodiscard]] std::expected<PreviousFeed, FeedFault> read_previous(std::string_view text,
                                                                   const civil::ZoneFinder& zones);

// Two feeds as one. Of an event that is in both the state that is further on counts; its
// place in the order is that of the first feed.
[[nodiscard]] PreviousFeed merge(PreviousFeed first, const PreviousFeed& second);

// The session that an id speaks of: what stands before its slot.
[[nodiscard]] std::string_view session_of(std::string_view id);

// The content lines of a text, unfolded. The last line end may be missing.
[[nodiscard]] ContentLines unfold(std::string_view text);

}  // namespace stave::calendar
