#include <algorithm>
#include <charconv>
#include <optional>
#include <set>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/feed.hpp"
#include "backends/calendar/feed_format.hpp"
#include "backends/calendar/stamp.hpp"

namespace stave::calendar {

namespace {

using Events = std::vector<PreviousEvent>;

// The content lines of a text, unfolded. The last line end may be missing.
ContentLines unfold(std::string_view text) {
    ContentLines lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        std::string_view line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (line.ends_with('\r')) line.remove_suffix(1);
        const bool continues = line.starts_with(' ') || line.starts_with('\t');
        if (continues && !lines.empty()) {
            lines.back() += line.substr(1);
        } else {
            lines.emplace_back(line);
        }
    }
    return lines;
}

bool is_stamp(std::string_view text) {
    return parse_utc_stamp(text).has_value();
}

std::optional<std::int64_t> parse_sequence(std::string_view text) {
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return {};
    if (value < 0 || value > last_sequence) return {};
    return value;
}

// A VEVENT's lines sorted into those that carry state and the others.
class EventReader {
public:
    // False for a line that no event of ours has.
    bool take(const std::string& line) {
        if (line.starts_with("BEGIN:") || line.starts_with("END:")) return false;
        for (Field* const field : {&uid_, &stamp_, &created_, &modified_, &sequence_}) {
            if (!line.starts_with(field->head)) continue;
            if (field->value) return false;
            field->value = line.substr(field->head.size());
            return true;
        }
        content_.push_back(line);
        return true;
    }

    // Nothing where a state line is missing or makes no sense.
    [[nodiscard]] std::optional<PreviousEvent> finish() const {
        for (const Field* const field : {&uid_, &stamp_, &created_, &modified_, &sequence_}) {
            if (!field->value || field->value->empty()) return {};
        }
        const std::optional<std::int64_t> sequence = parse_sequence(*sequence_.value);
        if (!sequence || !is_stamp(*stamp_.value) || !is_stamp(*created_.value)) return {};
        if (*stamp_.value != *modified_.value) return {};
        return PreviousEvent{*uid_.value, *sequence, *created_.value, *stamp_.value,
                             join(content_)};
    }

private:
    struct Field {
        std::string_view head;
        std::optional<std::string> value;
    };
    Field uid_{"UID:", {}};
    Field stamp_{"DTSTAMP:", {}};
    Field created_{"CREATED:", {}};
    Field modified_{"LAST-MODIFIED:", {}};
    Field sequence_{"SEQUENCE:", {}};
    ContentLines content_;
};

// Reads the component whose BEGIN is at `line_id` and moves behind its END; false
// where it is damaged. A VTIMEZONE is passed over: it is written afresh.
bool read_component(const ContentLines& lines, std::size_t& line_id, Events& events) {
    const bool is_event = lines[line_id] == "BEGIN:VEVENT";
    if (!is_event && lines[line_id] != "BEGIN:VTIMEZONE") return false;
    EventReader reader;
    for (++line_id; line_id < lines.size(); ++line_id) {
        const std::string& line = lines[line_id];
        if (line == (is_event ? "END:VEVENT" : "END:VTIMEZONE")) {
            ++line_id;
            if (!is_event) return true;
            std::optional<PreviousEvent> event = reader.finish();
            if (event) events.push_back(std::move(*event));
            return event.has_value();
        }
        if (is_event && !reader.take(line)) return false;
        if (!is_event && (line.starts_with("BEGIN:V") || line == "END:VCALENDAR")) return false;
    }
    return false;
}

bool have_own_uids(const Events& events) {
    std::set<std::string_view> uids;
    return std::all_of(events.begin(), events.end(), [&uids](const PreviousEvent& event) {
        return uids.insert(event.uid).second;
    });
}

// The events of a whole, undamaged feed of this program, else nothing.
std::optional<Events> parse(std::string_view text) {
    const ContentLines lines = unfold(text);
    if (lines.size() < 2 || lines.front() != "BEGIN:VCALENDAR" || lines.back() != "END:VCALENDAR") {
        return {};
    }
    const auto first_component = std::find_if(lines.begin() + 1, lines.end(), [](const auto& line) {
        return line.starts_with("BEGIN:") || line.starts_with("END:");
    });
    const std::string product = std::string{"PRODID:"}.append(product_id);
    if (std::find(lines.begin(), first_component, product) == first_component) return {};

    Events events;
    auto line_id = static_cast<std::size_t>(first_component - lines.begin());
    while (line_id + 1 < lines.size()) {
        if (!read_component(lines, line_id, events)) return {};
    }
    if (line_id + 1 != lines.size() || !have_own_uids(events)) return {};
    return events;
}

}  // namespace

bool is_own_feed(std::string_view text) {
    return parse(text).has_value();
}

std::vector<PreviousEvent> read_previous(std::string_view text) {
    return parse(text).value_or(Events{});
}

}  // namespace stave::calendar
