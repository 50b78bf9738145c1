#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <set>
#include <unordered_map>
#include <utility>

#include "backends/calendar/feed_format.hpp"
#include "backends/calendar/line_reader.hpp"
#include "backends/calendar/previous.hpp"
#include "backends/calendar/stamp.hpp"
#include "compiler/source/text_hash.hpp"

namespace stave::calendar {

namespace {

// Bytes of an event or a VTIMEZONE. What this program writes is far below: a description of
// 8000 letters takes some 50 kB.
constexpr std::size_t largest_component = 1'000'000;

// Bytes of a line that tell what it is: "STATUS:CANCELLED" has the most.
constexpr std::size_t longest_known = 17;

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

// The value of the next line; nothing where another line stands there.
std::optional<std::string_view> value_of(LineReader& lines, std::string_view head) {
    if (!lines.next() || !lines.line().starts_with(head)) return {};
    return lines.line().substr(head.size());
}

// The lines of an event's state, from the next one on; the reader comes to stand on the one
// behind them.
std::optional<WrittenEvent> read_state(LineReader& lines) {
    WrittenEvent event;
    event.uid = value_of(lines, "UID:").value_or("");
    const std::string stamp_text(value_of(lines, "DTSTAMP:").value_or(""));
    const auto stamp = parse_utc_stamp(stamp_text);
    const auto created = parse_utc_stamp(value_of(lines, "CREATED:").value_or(""));
    const bool is_same = value_of(lines, "LAST-MODIFIED:") == stamp_text;
    const auto sequence = parse_number(value_of(lines, "SEQUENCE:").value_or(""), last_sequence);
    if (event.uid.empty() || !stamp || !created || !is_same || !sequence) return {};
    event.stamp = *stamp;
    event.created = *created;
    event.sequence = *sequence;
    event.id = id_of(event.uid);
    if (!lines.next()) return {};
    if (lines.line().starts_with(id_head)) {
        event.id = lines.line().substr(id_head.size());
        if (!lines.next()) return {};
    }
    return event;
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

bool is_content(std::string_view line) {
    static constexpr std::array<std::string_view, 10> others{
        "BEGIN:",   "END:",           "UID:",      "DTSTAMP:", "CREATED:",
        "DTSTART:", "LAST-MODIFIED:", "SEQUENCE:", "DTEND:",   id_head};
    return std::ranges::none_of(others, [line](auto other) { return line.starts_with(other); });
}

class FeedReader {
public:
    FeedReader(PartedText text, const civil::ZoneFinder& zones)
        : text_(std::move(text)), lines_(text_), zones_(zones) {}

    std::expected<PreviousFeed, FeedFault> read() {
        if (const auto fault = read_head()) return std::unexpected(*fault);
        while (lines_.line() != "END:VCALENDAR") {
            const bool is_read = lines_.line() == "BEGIN:VEVENT"      ? read_event()
                                 : lines_.line() == "BEGIN:VTIMEZONE" ? read_zone()
                                                                      : false;
            if (!is_read || !lines_.next()) return std::unexpected(FeedFault::damaged);
        }
        if (lines_.end() < text_.size || !is_sound()) return std::unexpected(FeedFault::damaged);
        feed_.texts.push_back(std::move(text_));
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

    bool read_event() {
        PreviousEvent event;
        event.begin = lines_.end();
        const auto state = read_state(lines_);
        if (!state) return false;
        event.uid = text_hash(state->uid);
        event.id = text_hash(state->id);
        event.session = text_hash(session_of(state->id));
        event.sequence = state->sequence;
        event.state_size = static_cast<std::uint32_t>(lines_.begin() - event.begin);
        return read_content(event);
    }

    // From DTSTART, which is the current line, to the end.
    bool read_content(PreviousEvent& event) {
        const auto start = parse_time(lines_.line(), "DTSTART", zones_);
        if (!start) return false;
        event.start = start->moment;
        event.first_year = start->year;
        if (!start->zone.empty()) event.zone_id = zone_id(start->zone);
        if (!lines_.next()) return false;
        const auto end = parse_time(lines_.line(), "DTEND", zones_);
        if (!end) return false;
        event.end = end->moment;
        while (lines_.next() && lines_.end() - event.begin < largest_component) {
            // Long enough for every name, and for the lines that are known whole.
            const std::string_view line = lines_.beginning(longest_known);
            if (line == "END:VEVENT") {
                event.size = static_cast<std::uint32_t>(lines_.begin() - event.begin);
                feed_.events.push_back(event);
                return true;
            }
            if (!is_content(line)) return false;
            if (line == "STATUS:CANCELLED") event.is_cancelled = true;
        }
        return false;
    }

    bool read_zone() {
        PreviousZone zone;
        const std::size_t begin = lines_.begin();
        zone.name = value_of(lines_, "TZID:").value_or("");
        if (zone.name.empty()) return false;
        while (lines_.next() && lines_.end() - begin < largest_component) {
            const std::string_view line = lines_.line();
            if (line == "END:VTIMEZONE") {
                zone.text = text_.read(begin, lines_.end() - begin);
                feed_.zones.push_back(std::move(zone));
                return true;
            }
            if (line.starts_with("BEGIN:V") || line == "END:VCALENDAR") return false;
        }
        return false;
    }

    std::uint32_t zone_id(std::string_view name) {
        const auto next = static_cast<std::uint32_t>(feed_.zone_names.size());
        const auto [place, is_new] = zone_ids_.try_emplace(std::string{name}, next);
        if (is_new) feed_.zone_names.emplace_back(name);
        return place->second;
    }

    // No UID comes twice, and every zone that is named is told.
    [[nodiscard]] bool is_sound() const {
        std::vector<std::uint64_t> uids;
        uids.reserve(feed_.events.size());
        for (const PreviousEvent& event : feed_.events)
            uids.push_back(event.uid);
        std::ranges::sort(uids);
        std::set<std::string_view> told;
        for (const PreviousZone& zone : feed_.zones)
            told.insert(zone.name);
        return std::ranges::adjacent_find(uids) == uids.end() &&
               std::ranges::all_of(feed_.zone_names,
                                   [&](const std::string& name) { return told.contains(name); });
    }

    PartedText text_;
    LineReader lines_;
    const civil::ZoneFinder& zones_;
    PreviousFeed feed_;
    std::unordered_map<std::string, std::uint32_t> zone_ids_;
};

}  // namespace

std::expected<PreviousFeed, FeedFault> read_previous(PartedText text,
                                                     const civil::ZoneFinder& zones) {
    return FeedReader(std::move(text), zones).read();
}

std::optional<std::string> lines_of(const PreviousFeed& feed, const PreviousEvent& event) {
    std::string lines = feed.texts[event.text_id].read(event.begin, event.size);
    return lines.size() == event.size ? std::optional(std::move(lines)) : std::nullopt;
}

std::optional<WrittenEvent> read_event(const PreviousEvent& event, std::string_view lines) {
    LineReader reader(lines);
    auto written = read_state(reader);
    if (!written || text_hash(written->uid) != event.uid) return std::nullopt;
    written->content = lines.substr(reader.begin());
    return written;
}

}  // namespace stave::calendar
