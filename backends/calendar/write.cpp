#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <optional>
#include <utility>
#include <vector>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/event_lines.hpp"
#include "backends/calendar/feed.hpp"
#include "backends/calendar/feed_format.hpp"
#include "backends/calendar/line_reader.hpp"
#include "backends/calendar/reconcile.hpp"
#include "backends/calendar/stamp.hpp"
#include "backends/calendar/used_zones.hpp"
#include "compiler/source/text_hash.hpp"
#include "compiler/wording/words.hpp"

namespace stave::calendar {

namespace {

// As much of a feed as is handed to the sink at once.
constexpr std::size_t chunk_size = 65536;

// Whether the UID alone tells the id.
bool tells(std::string_view uid, std::string_view id) {
    const std::size_t point = uid.find('.');
    return point != std::string_view::npos && uid.substr(point + 1).starts_with(id) &&
           uid.substr(point + 1 + id.size()).starts_with('@');
}

std::string folded(const ContentLines& lines) {
    std::string text;
    append_folded(text, lines);
    return text;
}

// DTSTART and DTEND of an event's content.
ContentLines times_in(std::string_view content) {
    ContentLines lines = unfold(content);
    lines.resize(2);
    return lines;
}

// Whether each line ends as it is written.
bool has_own_ends(std::string_view text) {
    std::size_t at = text.find('\n');
    while (at != std::string_view::npos && at > 0 && text[at - 1] == '\r')
        at = text.find('\n', at + 1);
    return at == std::string_view::npos;
}

// Whether the text has just these lines, however it folds them.
bool says(std::string_view text, const ContentLines& lines) {
    LineReader reader(text);
    const bool begins_so = std::ranges::all_of(
        lines, [&](const std::string& line) { return reader.next() && reader.line() == line; });
    return begins_so && !reader.next();
}

class Writer {
public:
    Writer(const Feed& feed, const PreviousFeed& previous, std::chrono::sys_seconds now,
           const PartSink& sink)
        : feed_(feed),
          previous_(previous),
          now_(now),
          sink_(sink),
          pairing_(reconcile(feed, previous, now)),
          zones_(previous) {}

    Written run() {
        find_shown();
        find_kept();
        find_zones();
        if (!is_any_shown_ && kept_.empty()) return {true, same_until_};
        write_head();
        for (std::size_t i = 0; i < feed_.events.size() && is_whole_; ++i) {
            if (is_shown_[i]) write_event(i);
        }
        for (const std::uint32_t previous_id : kept_)
            write_gone(previous_.events[previous_id]);
        append_line(buffer_, "END:VCALENDAR");
        sink_(buffer_);
        return {is_whole_, same_until_};
    }

private:
    [[nodiscard]] const PreviousEvent* before(std::size_t event_id) const {
        const auto previous_id = pairing_.previous(event_id);
        return previous_id ? &previous_.events[*previous_id] : nullptr;
    }

    [[nodiscard]] bool is_kept(const PreviousEvent& event) {
        const Moment dropped{event.end.instant + kept_after_end, event.end.is_floating};
        if (!is_ahead(dropped, now_)) return false;
        same_until_ = std::min(same_until_, end_of(dropped));
        return true;
    }

    [[nodiscard]] bool is_shown(std::size_t event_id, EventStatus status) {
        const PreviousEvent* const known = before(event_id);
        return status != EventStatus::skipped || (known != nullptr && is_kept(*known));
    }

    // A cancelled event stays where athletes have it.
    [[nodiscard]] bool keeps_times(std::size_t event_id, EventStatus status) const {
        return status != EventStatus::confirmed && before(event_id) != nullptr;
    }

    void find_shown() {
        is_shown_.resize(feed_.events.size());
        for (std::size_t i = 0; i < feed_.events.size(); ++i) {
            const EventOutline event = feed_.events.outline(i);
            zones_.see(event);
            is_shown_[i] = is_shown(i, event.status);
            if (!is_shown_[i]) continue;
            is_any_shown_ = true;
            if (keeps_times(i, event.status)) zones_.keep(*before(i));
        }
    }

    void find_kept() {
        const std::vector<std::uint64_t> ids = pairing_.gone().empty() ? Hashes() : event_ids();
        for (const std::uint32_t previous_id : pairing_.gone()) {
            const PreviousEvent& event = previous_.events[previous_id];
            // From two feeds: the same event under another UID.
            if (!std::ranges::binary_search(ids, event.id) && is_kept(event))
                kept_.push_back(previous_id);
        }
        // What is not written could go on one that is kept, when all others have found theirs.
        const bool is_any_left_out = std::ranges::find(is_shown_, false) != is_shown_.end();
        if (is_any_left_out && !kept_.empty()) same_until_ = now_;
        if (is_any_shown_ || !kept_.empty() || previous_.events.empty()) return;
        const auto last = std::ranges::max_element(previous_.events, {}, &PreviousEvent::end);
        kept_.push_back(static_cast<std::uint32_t>(last - previous_.events.begin()));
    }

    using Hashes = std::vector<std::uint64_t>;

    [[nodiscard]] Hashes event_ids() const {
        Hashes ids;
        for (std::size_t i = 0; i < feed_.events.size(); ++i)
            ids.push_back(text_hash(feed_.events.outline(i).id));
        std::ranges::sort(ids);
        return ids;
    }

    void find_zones() {
        for (const std::uint32_t previous_id : kept_)
            zones_.keep(previous_.events[previous_id]);
        zones_.find();
        for (std::size_t i = 0; i < feed_.events.size() && zones_.is_any_open(); ++i) {
            const EventOutline event = feed_.events.outline(i);
            const bool has_own_times = is_shown_[i] && !keeps_times(i, event.status);
            if (has_own_times && zones_.is_open(event)) zones_.use(feed_.events.make(i));
        }
    }

    // Name and description twice: RFC 7986, and the older names that many calendar
    // programs read instead.
    void write_head() {
        const std::string title = text_value(feed_.title, Lines::one, longest_summary);
        const std::string description =
            escape(std::string(wording::word(feed_.language, wording::Word::feed_of_sessions)));
        ContentLines lines{"BEGIN:VCALENDAR",
                           "VERSION:2.0",
                           fmt::format("PRODID:{}", product_id),
                           "CALSCALE:GREGORIAN",
                           "NAME:" + title,
                           "X-WR-CALNAME:" + title,
                           "DESCRIPTION:" + description,
                           "X-WR-CALDESC:" + description,
                           "REFRESH-INTERVAL;VALUE=DURATION:PT1H",
                           "X-PUBLISHED-TTL:PT1H",
                           "COLOR:steelblue",
                           fmt::format("{}{}", format_head, feed_format)};
        // RFC 7986, sections 5.5 and 5.8.
        if (!feed_.page.empty()) lines.push_back("URL;VALUE=URI:" + clean(feed_.page, Lines::one));
        if (!feed_.address.empty())
            lines.push_back("SOURCE;VALUE=URI:" + clean(feed_.address, Lines::one));
        zones_.append(lines);
        append_folded(buffer_, lines);
    }

    void write_event(std::size_t event_id) {
        const Event event = feed_.events.make(event_id);
        if (const PreviousEvent* const previous = before(event_id))
            return write_again(event, *previous, keeps_times(event_id, event.status));
        write_whole({pairing_.new_uid(feed_.name, event_id, event.id), event.id, 0, now_, now_,
                     folded(with_content(zones_.times(event), event))});
    }

    [[nodiscard]] ContentLines with_content(ContentLines times, const Event& event) const {
        std::ranges::move(content_lines(event, feed_.language), std::back_inserter(times));
        return times;
    }

    // Most go on one that says the same, whose lines need not be taken apart.
    void write_again(const Event& event, const PreviousEvent& previous, bool keeps_times) {
        const auto lines_before = read_lines(previous);
        if (!lines_before) return;
        const std::string_view said = std::string_view(*lines_before).substr(previous.state_size);
        const ContentLines lines =
            with_content(keeps_times ? times_in(said) : zones_.times(event), event);
        std::string content = folded(lines);
        if (said == content && previous.id == text_hash(event.id) && has_own_ends(*lines_before))
            return write_lines(*lines_before);
        if (auto known = read(previous, *lines_before))
            write_changed(std::move(*known), event.id, lines, std::move(content));
    }

    void write_gone(const PreviousEvent& event) {
        const auto lines_before = read_lines(event);
        auto known = lines_before ? read(event, *lines_before) : std::nullopt;
        if (!known) return;
        const bool stays = event.is_cancelled || !is_ahead(event.end, now_);
        const ContentLines lines =
            stays ? unfold(known->content) : cancelled_lines(known->content, feed_.language);
        std::string id = known->id;
        write_changed(std::move(*known), std::move(id), lines, folded(lines));
    }

    std::optional<std::string> read_lines(const PreviousEvent& event) {
        auto lines = lines_of(previous_, event);
        is_whole_ = is_whole_ && lines;
        return lines;
    }

    std::optional<WrittenEvent> read(const PreviousEvent& event, std::string_view lines) {
        auto known = read_event(event, lines);
        is_whole_ = is_whole_ && known;
        return known;
    }

    // `content` is the lines folded.
    void write_changed(WrittenEvent event, std::string id, const ContentLines& lines,
                       std::string content) {
        if (event.content != content && !says(event.content, lines)) {
            ++event.sequence;
            // A clock that was set back must not hide the change from calendar programs.
            event.stamp = std::max(now_, event.stamp + std::chrono::seconds{1});
        }
        event.id = std::move(id);
        event.content = std::move(content);
        write_whole(event);
    }

    void write_whole(const WrittenEvent& event) {
        const std::string stamp = utc_stamp(event.stamp);
        std::string lines;
        append_line(lines, "UID:" + event.uid);
        append_line(lines, "DTSTAMP:" + stamp);
        append_line(lines, "CREATED:" + utc_stamp(event.created));
        append_line(lines, "LAST-MODIFIED:" + stamp);
        append_line(lines, "SEQUENCE:" + std::to_string(event.sequence));
        if (!tells(event.uid, event.id)) append_line(lines, std::string(id_head) + event.id);
        write_lines(lines += event.content);
    }

    // Those of an event between the two around them.
    void write_lines(std::string_view lines) {
        append_line(buffer_, "BEGIN:VEVENT");
        buffer_ += lines;
        append_line(buffer_, "END:VEVENT");
        if (buffer_.size() < chunk_size) return;
        sink_(buffer_);
        buffer_.clear();
    }

    const Feed& feed_;
    const PreviousFeed& previous_;
    std::chrono::sys_seconds now_;
    const PartSink& sink_;
    Pairing pairing_;
    UsedZones zones_;
    std::vector<bool> is_shown_;
    bool is_any_shown_ = false;
    // Whether all that was asked of the previous texts could be had.
    bool is_whole_ = true;
    std::chrono::sys_seconds same_until_ = std::chrono::sys_seconds::max();
    // Previous events that no event goes on and that are still written.
    std::vector<std::uint32_t> kept_;
    // What waits for the sink.
    std::string buffer_;
};

}  // namespace

Written write(const Feed& feed, const PreviousFeed& previous, std::chrono::sys_seconds now,
              const PartSink& sink) {
    return Writer(feed, previous, now, sink).run();
}

std::string write(const Feed& feed, const PreviousFeed& previous, std::chrono::sys_seconds now) {
    std::string text;
    const Written written =
        write(feed, previous, now, [&text](std::string_view part) { text += part; });
    return written.is_whole ? text : "";
}

}  // namespace stave::calendar
