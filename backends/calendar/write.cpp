#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/feed.hpp"
#include "backends/calendar/feed_format.hpp"
#include "backends/calendar/stamp.hpp"
#include "backends/calendar/vtimezone.hpp"
#include "compiler/wording/words.hpp"

namespace stave::calendar {

namespace {

// A zone that events of the feed name, and its rules where it is regular.
struct UsedZone {
    const civil::Zone* zone = nullptr;
    std::chrono::year first_year{civil::last_year};
    std::optional<ZoneRules> rules;
    // Whether an event is written with its TZID.
    bool is_written = false;
};

// By name, so that their order does not depend on the events'.
using UsedZones = std::map<std::string_view, UsedZone>;

using PreviousById = std::map<std::string_view, const PreviousEvent*>;

// "Europe/Lisbon" needs no quotes in a TZID parameter; a name that would is not
// the database's.
bool is_plain(std::string_view zone_name) {
    constexpr std::string_view plain =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789/_+-";
    return !zone_name.empty() && zone_name.find_first_not_of(plain) == std::string_view::npos;
}

std::chrono::year utc_year(std::chrono::sys_seconds instant) {
    const auto day = std::chrono::floor<std::chrono::days>(instant);
    return std::chrono::year_month_day{day}.year();
}

UsedZones collect_zones(std::span<const Event> events) {
    UsedZones zones;
    for (const Event& event : events) {
        if (event.zone == nullptr) continue;
        UsedZone& used = zones[event.zone->name];
        used.zone = event.zone;
        const std::chrono::year year = utc_year(civil::resolve(*event.zone, event.start).instant);
        used.first_year = std::min(used.first_year, year);
    }
    for (auto& [name, used] : zones) {
        if (is_plain(name)) used.rules = find_rules(*used.zone, used.first_year);
    }
    return zones;
}

bool is_unique(const civil::Zone& zone, std::chrono::local_seconds time) {
    return civil::resolve(zone, time).kind == civil::LocalTimeKind::unique;
}

void append_times(ContentLines& lines, const Event& event, UsedZones& zones) {
    const std::chrono::minutes length = std::max(event.length, std::chrono::minutes{1});
    if (event.zone == nullptr) {
        lines.push_back("DTSTART:" + local_stamp(event.start));
        lines.push_back("DTEND:" + local_stamp(event.start + length));
        return;
    }
    const civil::Zone& zone = *event.zone;
    const std::chrono::sys_seconds start = civil::resolve(zone, event.start).instant;
    const std::chrono::sys_seconds end = start + length;
    const std::chrono::local_seconds local_end = civil::to_local(zone, end);
    UsedZone& used = zones.at(zone.name);
    if (!used.rules || !is_unique(zone, event.start) || !is_unique(zone, local_end)) {
        lines.push_back("DTSTART:" + utc_stamp(start));
        lines.push_back("DTEND:" + utc_stamp(end));
        return;
    }
    used.is_written = true;
    lines.push_back(fmt::format("DTSTART;TZID={}:{}", zone.name, local_stamp(event.start)));
    lines.push_back(fmt::format("DTEND;TZID={}:{}", zone.name, local_stamp(local_end)));
}

// One line of text, cleaned, cut to what programs keep, and escaped.
std::string text_value(std::string_view text, Lines lines, std::size_t limit) {
    return escape(shorten(clean(text, lines), limit));
}

// Everything whose change an athlete should see.
ContentLines content_of(const Event& event, UsedZones& zones) {
    ContentLines lines;
    append_times(lines, event, zones);
    lines.push_back("SUMMARY:" + text_value(event.summary, Lines::one, longest_summary));
    if (!event.description.empty()) {
        lines.push_back("DESCRIPTION:" +
                        text_value(event.description, Lines::many, longest_description));
    }
    if (!event.location.empty()) {
        lines.push_back("LOCATION:" + text_value(event.location, Lines::one, longest_location));
    }
    // RFC 5545, section 3.8.4.6: a URI, which unlike a text escapes nothing.
    if (!event.url.empty()) lines.push_back("URL:" + clean(event.url, Lines::one));
    lines.emplace_back("STATUS:CONFIRMED");
    lines.emplace_back("TRANSP:OPAQUE");
    return lines;
}

// What a feed tells of an event's history.
struct History {
    std::int64_t sequence = 0;
    std::string created;
    std::string stamp;
};

History history_of(const PreviousEvent* previous, const ContentLines& content,
                   std::chrono::sys_seconds now) {
    if (previous == nullptr) return {0, utc_stamp(now), utc_stamp(now)};
    if (previous->content == join(content)) {
        return {previous->sequence, previous->created, previous->stamp};
    }
    // A clock that was set back must not hide the change from calendar programs.
    const std::optional<std::chrono::sys_seconds> before = parse_utc_stamp(previous->stamp);
    const std::chrono::sys_seconds stamp =
        before ? std::max(now, *before + std::chrono::seconds{1}) : now;
    return {previous->sequence + 1, previous->created, utc_stamp(stamp)};
}

void append_event(ContentLines& lines, const std::string& uid, const History& history,
                  const ContentLines& content) {
    lines.emplace_back("BEGIN:VEVENT");
    lines.push_back("UID:" + uid);
    lines.push_back("DTSTAMP:" + history.stamp);
    lines.push_back("CREATED:" + history.created);
    lines.push_back("LAST-MODIFIED:" + history.stamp);
    lines.push_back(fmt::format("SEQUENCE:{}", history.sequence));
    lines.insert(lines.end(), content.begin(), content.end());
    lines.emplace_back("END:VEVENT");
}

// Name and description twice: RFC 7986, and the older names that many calendar
// programs read instead.
void append_head(ContentLines& lines, const Feed& feed) {
    const std::string title = text_value(feed.title, Lines::one, longest_summary);
    const std::string description =
        escape(std::string(wording::word(feed.language, wording::Word::feed_of_sessions)));
    lines.emplace_back("BEGIN:VCALENDAR");
    lines.emplace_back("VERSION:2.0");
    lines.push_back(fmt::format("PRODID:{}", product_id));
    lines.emplace_back("CALSCALE:GREGORIAN");
    lines.push_back("NAME:" + title);
    lines.push_back("X-WR-CALNAME:" + title);
    lines.push_back("DESCRIPTION:" + description);
    lines.push_back("X-WR-CALDESC:" + description);
    lines.emplace_back("REFRESH-INTERVAL;VALUE=DURATION:PT1H");
    lines.emplace_back("X-PUBLISHED-TTL:PT1H");
    // RFC 7986, sections 5.5 and 5.8.
    if (!feed.page.empty()) lines.push_back("URL;VALUE=URI:" + clean(feed.page, Lines::one));
    if (!feed.address.empty())
        lines.push_back("SOURCE;VALUE=URI:" + clean(feed.address, Lines::one));
    lines.emplace_back("COLOR:steelblue");
}

std::string uid_of(const Feed& feed, const Event& event) {
    return escape(clean(fmt::format("{}.{}@{}", feed.name, event.id, uid_domain), Lines::one));
}

}  // namespace

std::string write(const Feed& feed, std::span<const PreviousEvent> previous,
                  std::chrono::sys_seconds now) {
    PreviousById remembered;
    for (const PreviousEvent& event : previous)
        remembered.emplace(event.uid, &event);

    UsedZones zones = collect_zones(feed.events);
    ContentLines events;
    for (const Event& event : feed.events) {
        const std::string uid = uid_of(feed, event);
        const ContentLines content = content_of(event, zones);
        const auto known = remembered.find(uid);
        const PreviousEvent* const before = known == remembered.end() ? nullptr : known->second;
        append_event(events, uid, history_of(before, content, now), content);
    }

    ContentLines lines;
    append_head(lines, feed);
    for (const auto& [name, used] : zones) {
        if (used.is_written) append_vtimezone(lines, name, *used.rules);
    }
    lines.insert(lines.end(), events.begin(), events.end());
    lines.emplace_back("END:VCALENDAR");

    std::string text;
    append_folded(text, lines);
    return text;
}

}  // namespace stave::calendar
