// Calendar feeds: one VCALENDAR with one VEVENT for each session that has a
// date, as RFC 5545 text.
//
// UIDs come from the file's feed name and the session's slug, never from time or
// position. Content lines are folded at 75 octets, never inside a character.
// Events with a zone carry its TZID and the feed its VTIMEZONE; events whose
// zone changes its offset irregularly are written in UTC; events without a zone
// are floating local times.
#pragma once

#include <chrono>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "compiler/civil/zone.hpp"
#include "compiler/program/program.hpp"
#include "compiler/timeline/timeline.hpp"

namespace stave::calendar {

// One session's slot. Text fields are UTF-8 without control characters except
// line feed.
struct Event {
    // Unique in the feed; ASCII letters, digits, hyphens.
    std::string id;
    std::string summary;
    std::string description;
    std::string location;
    // Wall-clock start; in `zone` where one is given, else floating.
    std::chrono::local_seconds start;
    std::chrono::minutes length{0};
    // Null for floating times. Must outlive the feed.
    const civil::Zone* zone = nullptr;

    friend bool operator==(const Event&, const Event&) = default;
};

struct Feed {
    // The file's stem; ASCII letters, digits, hyphens.
    std::string name;
    // Shown by calendar programs.
    std::string title;
    std::vector<Event> events;
};

// One event, its description written for a phone's screen: minutes and place,
// kit, each block with its doses, loads and cues, then the cautions.
[[nodiscard]] Event make_event(const program::Program& program, const program::Session& session,
                               const timeline::Timeline& timeline, const civil::Zone* zone);

// What the feed's previous text knows of its events, so that an unchanged
// session keeps its stamps and a changed one raises its SEQUENCE.
struct PreviousEvent {
    std::string uid;
    std::int64_t sequence = 0;
    std::string created;
    std::string stamp;
    // The VEVENT's lines without UID and the stamps, unfolded.
    std::string content;
};

// Reads a feed that this program wrote. Anything else gives no events.
[[nodiscard]] std::vector<PreviousEvent> read_previous(std::string_view text);

// The whole feed, CRLF lines. DTSTAMP, LAST-MODIFIED and CREATED of new or changed
// events are `now`; an unchanged event is byte for byte the previous one.
[[nodiscard]] std::string write(const Feed& feed, std::span<const PreviousEvent> previous,
                                std::chrono::sys_seconds now);

}  // namespace stave::calendar
