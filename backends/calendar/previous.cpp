#include "backends/calendar/previous.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <set>
#include <unordered_map>

#include "backends/calendar/feed_format.hpp"
#include "backends/calendar/line_reader.hpp"
#include "backends/calendar/stamp.hpp"

namespace stave::calendar {

namespace {

// No clock is further behind UTC.
constexpr std::chrono::hours furthest_behind{12};

std::optional<std::int64_t> parse_number(std::string_view text, std::int64_t most) {
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return {};
    if (value < 0 || value > most) return {};
    return value;
}

// "session-9" of "skerry-winter.session-9@feeds.stave.invalid": feeds' names have no point.
std::string_view id_of(std::string_view uid) {
    const std::size_t point = uid.find('.');
    const std::size_t at = uid.find('@');
    if (point == std::string_view::npos || at == std::string_view::npos || at < point) return uid;
    return uid.substr(point + 1, at - point - 1);
}

// A DTSTART or DTEND.
struct Time {
    Moment moment;
    std::chrono::year year{0};
    // A view into the line.
    std::string_view zone;
};

std::optional<Time> parse_time(std::string_view line, std::string_view name,
                               const civil::ZoneFinder& zones) {
    constexpr std::string_view zone_head = ";TZID=";
    if (!line.starts_with(name)) return {};
    line.remove_prefix(name.size());
    Time time;
    if (line.starts_with(zone_head)) {
        line.remove_prefix(zone_head.size());
        time.zone = line.substr(0, line.find(':'));
        line.remove_prefix(time.zone.size());
    }
    if (!line.starts_with(':')) return {};
    line.remove_prefix(1);
    const bool is_utc = line.ends_with('Z');
    if (is_utc && !time.zone.empty()) return {};
    const auto instant = parse_utc_stamp(is_utc ? std::string{line} : std::string{line} + 'Z');
    if (!instant) return {};
    time.year = std::chrono::year_month_day{std::chrono::floor<std::chrono::days>(*instant)}.year();
    const civil::Zone* const zone = time.zone.empty() ? nullptr : zones(time.zone);
    time.moment = {*instant, !is_utc && zone == nullptr};
    if (zone != nullptr) {
        time.moment.instant =
            civil::resolve(*zone, std::chrono::local_seconds{instant->time_since_epoch()}).instant;
    }
    return time;
}

class FeedReader {
public:
    FeedReader(std::string_view text, const civil::ZoneFinder& zones)
        : text_(text), lines_(text), zones_(zones) {}

    std::expected<PreviousFeed, FeedFault> read() {
        if (const auto fault = read_head()) return std::unexpected(*fault);
        while (lines_.line() != "END:VCALENDAR") {
            const bool is_read = lines_.line() == "BEGIN:VEVENT"      ? read_event()
                                 : lines_.line() == "BEGIN:VTIMEZONE" ? read_zone()
                                                                      : false;
            if (!is_read || !lines_.next()) return std::unexpected(FeedFault::damaged);
        }
        if (lines_.next() || !is_sound()) return std::unexpected(FeedFault::damaged);
        return std::move(feed_);
    }

private:
    // Up to the first component or the end.
    std::optional<FeedFault> read_head() {
        if (!lines_.next() || lines_.line() != "BEGIN:VCALENDAR") return FeedFault::foreign;
        bool is_own = false;
        std::optional<std::int64_t> format = 0;
        bool is_whole = false;
        while (!is_whole && lines_.next()) {
            const std::string_view line = lines_.line();
            is_whole = line.starts_with("BEGIN:") || line.starts_with("END:");
            is_own = is_own || (line.starts_with("PRODID:") && line.substr(7) == product_id);
            if (!line.starts_with(format_head)) continue;
            format = parse_number(line.substr(format_head.size()), last_sequence);
        }
        if (!is_own) return FeedFault::foreign;
        if (format && *format > feed_format) return FeedFault::newer;
        return format && is_whole ? std::nullopt : std::optional{FeedFault::damaged};
    }

    // Its value; nothing where another line stands there.
    std::optional<std::string_view> value_of(std::string_view head) {
        if (!lines_.next() || !lines_.line().starts_with(head)) return {};
        return lines_.line().substr(head.size());
    }

    bool read_event() {
        PreviousEvent event;
        event.uid = value_of("UID:").value_or("");
        const auto stamp = parse_utc_stamp(value_of("DTSTAMP:").value_or(""));
        const auto created = parse_utc_stamp(value_of("CREATED:").value_or(""));
        const auto modified = parse_utc_stamp(value_of("LAST-MODIFIED:").value_or(""));
        const auto sequence = parse_number(value_of("SEQUENCE:").value_or(""), last_sequence);
        if (event.uid.empty() || !stamp || !created || stamp != modified || !sequence) return false;
        event.stamp = *stamp;
        event.created = *created;
        event.sequence = *sequence;
        event.id = id_of(event.uid);
        if (!lines_.next()) return false;
        if (lines_.line().starts_with(id_head)) {
            event.id = lines_.line().substr(id_head.size());
            if (!lines_.next()) return false;
        }
        return read_content(event);
    }

    // From DTSTART, which is the current line, to the end.
    bool read_content(PreviousEvent& event) {
        const std::size_t begin = lines_.begin();
        const auto start = parse_time(lines_.line(), "DTSTART", zones_);
        if (!start) return false;
        event.start = start->moment;
        event.first_year = start->year;
        // In the text, not in the reader's line.
        constexpr std::size_t before_name = std::string_view("DTSTART;TZID=").size();
        if (!start->zone.empty()) {
            event.zone = text_.substr(begin + before_name, start->zone.size());
        }
        if (!lines_.next()) return false;
        const auto end = parse_time(lines_.line(), "DTEND", zones_);
        if (!end) return false;
        event.end = end->moment;
        while (lines_.next()) {
            const std::string_view line = lines_.line();
            if (line == "END:VEVENT") {
                event.content = text_.substr(begin, lines_.begin() - begin);
                feed_.events.push_back(std::move(event));
                return true;
            }
            if (!is_content(line)) return false;
            if (line == "STATUS:CANCELLED") event.is_cancelled = true;
        }
        return false;
    }

    static bool is_content(std::string_view line) {
        static constexpr std::array<std::string_view, 10> others{
            "BEGIN:",   "END:",           "UID:",      "DTSTAMP:", "CREATED:",
            "DTSTART:", "LAST-MODIFIED:", "SEQUENCE:", "DTEND:",   id_head};
        return std::ranges::none_of(others, [line](auto other) { return line.starts_with(other); });
    }

    bool read_zone() {
        constexpr std::string_view name_head = "TZID:";
        const std::size_t begin = lines_.begin();
        const auto name = value_of(name_head);
        if (!name || name->empty()) return false;
        const std::string_view in_text =
            text_.substr(lines_.begin() + name_head.size(), name->size());
        while (lines_.next()) {
            const std::string_view line = lines_.line();
            if (line == "END:VTIMEZONE") {
                feed_.zones.push_back({in_text, text_.substr(begin, lines_.end() - begin)});
                return true;
            }
            if (line.starts_with("BEGIN:V") || line == "END:VCALENDAR") return false;
        }
        return false;
    }

    // No UID comes twice, and every zone that is named is told.
    [[nodiscard]] bool is_sound() const {
        std::set<std::string_view> uids;
        std::set<std::string_view> zones;
        for (const PreviousZone& zone : feed_.zones)
            zones.insert(zone.name);
        return std::ranges::all_of(feed_.events, [&](const PreviousEvent& event) {
            return uids.insert(event.uid).second &&
                   (event.zone.empty() || zones.contains(event.zone));
        });
    }

    std::string_view text_;
    LineReader lines_;
    const civil::ZoneFinder& zones_;
    PreviousFeed feed_;
};

}  // namespace

bool is_ahead(const Moment& moment, std::chrono::sys_seconds now) {
    return moment.instant + (moment.is_floating ? furthest_behind : std::chrono::hours{0}) > now;
}

std::string_view session_of(std::string_view id) {
    return id.substr(0, id.find('.'));
}

ContentLines unfold(std::string_view text) {
    ContentLines lines;
    LineReader reader(text);
    while (reader.next())
        lines.emplace_back(reader.line());
    return lines;
}

std::expected<PreviousFeed, FeedFault> read_previous(std::string_view text,
                                                     const civil::ZoneFinder& zones) {
    return FeedReader(text, zones).read();
}

PreviousFeed merge(PreviousFeed first, const PreviousFeed& second) {
    std::unordered_map<std::string_view, std::size_t> places;
    for (std::size_t i = 0; i < first.events.size(); ++i)
        places.emplace(first.events[i].uid, i);
    std::vector<PreviousEvent> added;
    for (const PreviousEvent& event : second.events) {
        const auto known = places.find(event.uid);
        if (known == places.end()) {
            added.push_back(event);
        } else if (first.events[known->second].sequence < event.sequence) {
            // The key is a view of the UID there, which is the same.
            const std::size_t place = known->second;
            places.erase(known);
            first.events[place] = event;
        }
    }
    first.events.insert(first.events.end(), added.begin(), added.end());
    first.zones.insert(first.zones.end(), second.zones.begin(), second.zones.end());
    return first;
}

}  // namespace stave::calendar
