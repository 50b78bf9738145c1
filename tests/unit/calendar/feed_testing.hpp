// Helpers of the calendar tests: zones of the machine's database, events, and a
// feed's lines.
#pragma once

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <expected>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "backends/calendar/feed.hpp"
#include "backends/calendar/previous.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::calendar::testing {

inline zones::ZoneLoader& zone_loader() {
    static zones::ZoneLoader loader;
    return loader;
}

// The zone from the machine's database. A missing one fails the test by throwing.
inline const civil::Zone& zone(std::string_view name) {
    const civil::Zone* const found = zone_loader().find(name);
    if (found == nullptr) throw std::string{"no zone "}.append(name);
    return *found;
}

inline std::chrono::local_seconds local(int year, unsigned month, unsigned day, int hour,
                                        int minute) {
    const std::chrono::year_month_day date{std::chrono::year{year}, std::chrono::month{month},
                                           std::chrono::day{day}};
    return std::chrono::local_days{date} + std::chrono::hours{hour} + std::chrono::minutes{minute};
}

inline std::chrono::sys_seconds utc(int year, unsigned month, unsigned day, int hour, int minute) {
    return std::chrono::sys_seconds{local(year, month, day, hour, minute).time_since_epoch()};
}

// 40 minutes of rowing, in a zone or floating.
inline Event event(std::string id, std::chrono::local_seconds start,
                   const civil::Zone* zone = nullptr) {
    Event event;
    event.session = id;
    event.id = std::move(id);
    event.summary = "Slack water";
    event.description = "40 min, Boathouse loft\nA Row: 4 × 5 min";
    event.location = "Boathouse loft";
    event.start = start;
    event.length = std::chrono::minutes{40};
    event.zone = zone;
    return event;
}

// A feed whose events can be changed before they are written.
struct HeldFeed {
    std::string name;
    std::string title;
    std::vector<Event> events;
    wording::Language language = wording::Language::english;

    // NOLINTNEXTLINE(google-explicit-constructor): it stands wherever a feed is written.
    operator Feed() const { return {name, title, Events(events), {}, {}, language}; }
};

inline HeldFeed feed(std::vector<Event> events) {
    return {"skerry-winter", "Skerry Point, winter", std::move(events)};
}

// The text must outlive what was read.
inline std::expected<PreviousFeed, FeedFault> read(std::string_view text) {
    return read_previous(in_memory(text), zone_loader().finder());
}

// The feed as it is written over a text; one that cannot be read fails the test by throwing.
inline std::string rewrite(const Feed& feed, const std::string& previous,
                           std::chrono::sys_seconds now) {
    const auto before = read(previous);
    if (!before) throw std::string{"no feed of ours: "}.append(previous);
    return write(feed, *before, now);
}

// The feed's lines as they stand, without their CR LF.
inline std::vector<std::string> raw_lines(std::string_view text) {
    std::vector<std::string> lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find("\r\n"), text.size());
        lines.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 2, text.size()));
    }
    return lines;
}

// The feed's lines with folded ones joined.
inline std::vector<std::string> lines(std::string_view text) {
    std::vector<std::string> joined;
    for (const std::string& line : raw_lines(text)) {
        if (line.starts_with(' ') && !joined.empty()) {
            joined.back() += line.substr(1);
        } else {
            joined.push_back(line);
        }
    }
    return joined;
}

// Values of all lines that begin so.
inline std::vector<std::string> values(std::string_view text, std::string_view head) {
    std::vector<std::string> found;
    for (const std::string& line : lines(text)) {
        if (line.starts_with(head)) found.push_back(line.substr(head.size()));
    }
    return found;
}

using Texts = std::vector<std::string>;

inline const std::chrono::sys_seconds first_build = utc(2026, 11, 1, 12, 0);
inline const std::chrono::sys_seconds second_build = utc(2026, 11, 8, 9, 30);

// A winter of three sessions, one of them long, in two zones and in none.
inline HeldFeed sample() {
    Event long_event = event("session-10", local(2026, 12, 10, 18, 30));
    for (int count = 0; count < 30; ++count)
        long_event.description += "\nleg: 4 × 5, slowly";
    return feed({event("session-9", local(2026, 12, 3, 18, 30), &zone("Europe/Lisbon")), long_event,
                 event("titled-ebb", local(2026, 12, 17, 7, 0), &zone("Asia/Tokyo"))});
}

}  // namespace stave::calendar::testing
