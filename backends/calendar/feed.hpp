// Calendar feeds: one VCALENDAR with one VEVENT for each session that has a
// date, as RFC 5545 text.
//
// A UID comes from the feed's name and the session's number (its slug where it has none)
// when an event is first written, and is kept from the previous feed. Content lines are folded at
// 75 octets, never inside a character. Events with a zone carry its TZID and the feed its
// VTIMEZONE; events whose zone changes its offset irregularly, or whose start or
// end falls into an hour that comes twice, are written in UTC; events without a
// zone are floating local times.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compiler/civil/zone.hpp"
#include "compiler/program/program.hpp"
#include "compiler/source/parted_text.hpp"
#include "compiler/timeline/timeline.hpp"
#include "compiler/wording/language.hpp"

namespace stave::calendar {

// Whether a session takes place. A cancelled one is announced as such in any case; a
// skipped one only where athletes have seen it, that is, where the previous feed has it.
enum class EventStatus { confirmed, cancelled, skipped };

// One session's slot. Text fields are UTF-8; what a feed cannot carry (control
// characters, a line break in a one-line field, text beyond what calendar
// programs show) is dropped or cut when the feed is written.
struct Event {
    // Unique in the feed: `event_id` of the two below.
    std::string id;
    // Which session of the file, the same as long as the session is the same; ASCII
    // letters, digits, hyphens: "session-9".
    std::string session;
    // Which of the session's events: the day it was first planned for and the group, if any
    // ("20261203", "20261203-a"), which stay when it is moved; empty for a session with a
    // time of its own. Signs as above.
    std::string slot;
    EventStatus status = EventStatus::confirmed;
    // Why it is cancelled or skipped, in the coach's words; may be empty.
    std::string reason;
    std::string summary;
    std::string description;
    std::string location;
    // A URI, or empty.
    std::string url;
    // Wall-clock start; in `zone` where one is given, else floating.
    std::chrono::local_seconds start;
    // Less than a minute counts as one: RFC 5545 wants an end after the start.
    std::chrono::minutes length{0};
    // Null for floating times. Must outlive the feed.
    const civil::Zone* zone = nullptr;

    friend bool operator==(const Event&, const Event&) = default;
};

// "session-9", or "session-9.20261203" with a slot.
[[nodiscard]] std::string event_id(std::string_view session, std::string_view slot);

// What of an event decides which one it is and whether it is written: as in the Event.
struct EventOutline {
    std::string id;
    std::string session;
    EventStatus status = EventStatus::confirmed;
    std::chrono::local_seconds start;
    const civil::Zone* zone = nullptr;
};

// The events of a feed in their order, their ids all different. They are made when they are
// asked for, so that thousands of texts need not be held; outlines are asked for several times
// and ought to cost little.
class Events {
public:
    using Outliner = std::function<EventOutline(std::size_t)>;
    using Maker = std::function<Event(std::size_t)>;

    Events() = default;
    Events(std::size_t count, Outliner outline, Maker make)
        : count_(count), outline_(std::move(outline)), make_(std::move(make)) {}
    // Held.
    explicit Events(std::vector<Event> events);

    [[nodiscard]] std::size_t size() const { return count_; }
    [[nodiscard]] bool empty() const { return count_ == 0; }
    [[nodiscard]] EventOutline outline(std::size_t id) const { return outline_(id); }
    [[nodiscard]] Event make(std::size_t id) const { return make_(id); }

private:
    std::size_t count_ = 0;
    Outliner outline_;
    Maker make_;
};

struct Feed {
    // The file's stem; ASCII letters, digits, hyphens.
    std::string name;
    // Shown by calendar programs.
    std::string title;
    Events events;
    // Where it can be fetched, and a page that tells of it: URIs, or empty.
    std::string address = {};
    std::string page = {};
    // Of its own description.
    wording::Language language = wording::Language::english;
};

// Event::session of the session's events.
[[nodiscard]] std::string session_identity(const program::Session& session);

// One event, its description written for a phone's screen: minutes and place,
// kit, each block with its doses, loads and cues, then the cautions. Where that is
// too long for a calendar, the cues are left out, and if need be the last movements.
//
// `session` is one of the program and has a date; `zone` is the one it names, or null. The
// words that the session does not say itself are in `language`. `card` is the address of its
// card, or empty: it ends the description, and the event leads there where the session has no
// link of its own. `moved` says from when it was moved, or is empty; it begins the description.
[[nodiscard]] Event make_event(const program::Program& program, const program::Session& session,
                               const timeline::Timeline& timeline, const civil::Zone* zone,
                               wording::Language language, std::string_view card = {},
                               std::string_view moved = {});

struct PreviousFeed;

struct Written {
    // Where not, a previous text no longer holds what was read of it, and what the sink was given
    // is of no use.
    bool is_whole = true;
    // From `now` until then the same events over what was written give it once more.
    std::chrono::sys_seconds same_until;
};

// The whole feed, CRLF lines; nothing where there is no event to write. Holds the text of
// one event at a time, and a few bytes of each.
//
// Each event goes on a previous one or is new: `reconcile.hpp` has the rules. A new event has
// SEQUENCE 0 and the stamps `now`. An unchanged one is byte for byte the previous one. A
// changed one has SEQUENCE + 1 and a stamp of `now`, or later where `now` is not after its
// previous stamp.
//
// Previous events that no event goes on are written behind the others. One that is not over
// (floating times: anywhere on earth) becomes a cancelled event at its time and stays so. One
// that is over stays as it was: what athletes have done is not rewritten. Both are dropped
// thirty days after their end, but the last of all, since a calendar may not be empty.
//
// Of one feed alone, as it stands, it is known until when it stays as it is (see Written).
[[nodiscard]] Written write(const Feed& feed, const PreviousFeed& previous,
                            std::chrono::sys_seconds now, const PartSink& sink);
// Empty where that is not whole.
[[nodiscard]] std::string write(const Feed& feed, const PreviousFeed& previous,
                                std::chrono::sys_seconds now);

}  // namespace stave::calendar
