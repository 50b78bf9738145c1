// What a feed's previous text knows of its events: the state from which the next text
// goes on. There is no other.
//
// Takes a text that this program wrote, with any line ends. Refuses other programs'
// calendars, feeds that are cut short or otherwise damaged, and those of a later version:
// writing over them would lose what they know. Of each event some hundred bytes are held;
// its lines stay where the text is, and are read again when they are needed.
#pragma once

#include <chrono>
#include <cstdint>
#include <deque>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "backends/calendar/content_line.hpp"
#include "compiler/civil/zone.hpp"
#include "compiler/source/parted_text.hpp"

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

// The `now` from which on it does not.
[[nodiscard]] std::chrono::sys_seconds end_of(const Moment& moment);

// Names are known by their `text_hash`.
struct PreviousEvent {
    std::uint64_t uid = 0;
    // Event::id as it was when this was written, and the session in it.
    std::uint64_t id = 0;
    std::uint64_t session = 0;
    // Its lines in one of the feed's texts, those around them left out.
    std::size_t begin = 0;
    std::uint32_t size = 0;
    std::uint32_t text_id = 0;
    std::int64_t sequence = 0;
    Moment start;
    Moment end;
    // Its TZID among the feed's; nothing where it has none.
    std::optional<std::uint32_t> zone_id;
    std::chrono::year first_year{0};
    bool is_cancelled = false;
    // How many of its bytes are its state, in front of what it says.
    std::uint32_t state_size = 0;
};

struct PreviousZone {
    std::string name;
    // The whole VTIMEZONE, as it stands.
    std::string text;
};

struct PreviousFeed {
    std::deque<PreviousEvent> events;
    std::vector<PreviousZone> zones;
    // What events name as theirs, each once.
    std::vector<std::string> zone_names;
    std::vector<PartedText> texts;
};

enum class FeedFault { foreign, damaged, newer };

// `zones` tells when events with a zone begin and end.
[[nodiscard]] std::expected<PreviousFeed, FeedFault> read_previous(PartedText text,
                                                                   const civil::ZoneFinder& zones);

// What an event's lines say.
struct WrittenEvent {
    std::string uid;
    std::string id;
    std::int64_t sequence = 0;
    std::chrono::sys_seconds created;
    std::chrono::sys_seconds stamp;
    // The lines behind those of its state, as they stand.
    std::string content;
};

// Its lines as they stand; nothing where the text no longer has as many.
[[nodiscard]] std::optional<std::string> lines_of(const PreviousFeed& feed,
                                                  const PreviousEvent& event);

// Nothing where these are no longer its lines.
[[nodiscard]] std::optional<WrittenEvent> read_event(const PreviousEvent& event,
                                                     std::string_view lines);

// Two feeds as one. Of an event that is in both the state that is further on counts; its
// place in the order is that of the first feed.
[[nodiscard]] PreviousFeed merge(PreviousFeed first, const PreviousFeed& second);

// The session that an id speaks of: what stands before its slot.
[[nodiscard]] std::string_view session_of(std::string_view id);

// The content lines of a text, unfolded. The last line end may be missing.
[[nodiscard]] ContentLines unfold(std::string_view text);

}  // namespace stave::calendar
