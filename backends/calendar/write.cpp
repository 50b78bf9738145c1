#include <fmt/format.h>

#include <algorithm>
#include <unordered_set>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/event_lines.hpp"
#include "backends/calendar/feed.hpp"
#include "backends/calendar/feed_format.hpp"
#include "backends/calendar/reconcile.hpp"
#include "backends/calendar/stamp.hpp"
#include "backends/calendar/used_zones.hpp"
#include "compiler/wording/words.hpp"

namespace stave::calendar {

namespace {

// As much of a feed as is handed to the sink at once.
constexpr std::size_t chunk_size = 65536;

// An event's lines of state.
struct State {
    std::string_view uid;
    std::string_view id;
    std::int64_t sequence = 0;
    std::chrono::sys_seconds created;
    std::chrono::sys_seconds stamp;
};

// Whether the UID alone tells the id.
bool tells(std::string_view uid, std::string_view id) {
    const std::size_t point = uid.find('.');
    return point != std::string_view::npos && uid.substr(point + 1).starts_with(id) &&
           uid.substr(point + 1 + id.size()).starts_with('@');
}

class Writer {
public:
    Writer(const Feed& feed, const PreviousFeed& previous, std::chrono::sys_seconds now,
           const Sink& sink)
        : feed_(feed),
          previous_(previous),
          now_(now),
          sink_(sink),
          pairing_(reconcile(feed.name, feed.events, previous.events)),
          zones_(feed.events) {}

    void run() {
        find_kept();
        find_zones();
        if (!is_any_shown_ && kept_.empty()) return;
        write_head();
        for (std::size_t i = 0; i < feed_.events.size(); ++i)
            if (is_shown(i)) write_event(i);
        for (const std::size_t previous_id : kept_)
            write_gone(previous_.events[previous_id]);
        append_folded(buffer_, {"END:VCALENDAR"});
        sink_(buffer_);
    }

private:
    [[nodiscard]] const PreviousEvent* before(std::size_t event_id) const {
        const auto previous_id = pairing_.previous[event_id];
        return previous_id ? &previous_.events[*previous_id] : nullptr;
    }

    [[nodiscard]] bool is_kept(const PreviousEvent& event) const {
        return is_ahead({event.end.instant + kept_after_end, event.end.is_floating}, now_);
    }

    [[nodiscard]] bool is_shown(std::size_t event_id) const {
        const PreviousEvent* const known = before(event_id);
        return feed_.events[event_id].status != EventStatus::skipped ||
               (known != nullptr && is_kept(*known));
    }

    // A cancelled event stays where athletes have it.
    [[nodiscard]] bool keeps_times(std::size_t event_id) const {
        return feed_.events[event_id].status != EventStatus::confirmed &&
               before(event_id) != nullptr;
    }

    void find_kept() {
        std::unordered_set<std::string_view> ids;
        for (std::size_t i = 0; i < feed_.events.size(); ++i) {
            ids.insert(feed_.events[i].id);
            is_any_shown_ = is_any_shown_ || is_shown(i);
        }
        for (const std::size_t previous_id : pairing_.gone) {
            const PreviousEvent& event = previous_.events[previous_id];
            // From two feeds: the same event under another UID.
            if (!ids.contains(event.id) && is_kept(event)) kept_.push_back(previous_id);
        }
        if (is_any_shown_ || !kept_.empty() || previous_.events.empty()) return;
        const auto last = std::ranges::max_element(previous_.events, {}, &PreviousEvent::end);
        kept_.push_back(static_cast<std::size_t>(last - previous_.events.begin()));
    }

    void find_zones() {
        for (const std::size_t previous_id : kept_)
            zones_.keep(previous_.events[previous_id]);
        for (std::size_t i = 0; i < feed_.events.size(); ++i)
            if (is_shown(i) && keeps_times(i)) zones_.keep(*before(i));
        zones_.find();
        for (std::size_t i = 0; i < feed_.events.size(); ++i)
            if (is_shown(i) && !keeps_times(i)) zones_.use(feed_.events[i]);
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
        zones_.append(lines, previous_.zones);
        append_folded(buffer_, lines);
    }

    void write_event(std::size_t event_id) {
        const Event& event = feed_.events[event_id];
        const PreviousEvent* const known = before(event_id);
        ContentLines lines;
        if (keeps_times(event_id)) {
            lines = unfold(known->content);
            lines.resize(2);
        } else {
            lines = zones_.times(event);
        }
        const ContentLines content =
            feed_.describe ? content_lines(event, feed_.describe(event_id), feed_.language)
                           : content_lines(event, event.description, feed_.language);
        lines.insert(lines.end(), content.begin(), content.end());
        write_changed(pairing_.uids[event_id], event.id, known, lines);
    }

    void write_gone(const PreviousEvent& event) {
        if (event.is_cancelled || !is_ahead(event.end, now_)) {
            content_.clear();
            append_folded(content_, unfold(event.content));
            write_whole({event.uid, event.id, event.sequence, event.created, event.stamp});
        } else {
            write_changed(event.uid, event.id, &event, cancelled_lines(event, feed_.language));
        }
    }

    void write_changed(std::string_view uid, std::string_view id, const PreviousEvent* known,
                       const ContentLines& lines) {
        content_.clear();
        append_folded(content_, lines);
        if (known == nullptr) return write_whole({uid, id, 0, now_, now_});
        if (known->content == content_ || unfold(known->content) == lines) {
            return write_whole({uid, id, known->sequence, known->created, known->stamp});
        }
        // A clock that was set back must not hide the change from calendar programs.
        const auto stamp = std::max(now_, known->stamp + std::chrono::seconds{1});
        write_whole({uid, id, known->sequence + 1, known->created, stamp});
    }

    void write_whole(const State& state) {
        ContentLines lines{"BEGIN:VEVENT",
                           fmt::format("UID:{}", state.uid),
                           "DTSTAMP:" + utc_stamp(state.stamp),
                           "CREATED:" + utc_stamp(state.created),
                           "LAST-MODIFIED:" + utc_stamp(state.stamp),
                           fmt::format("SEQUENCE:{}", state.sequence)};
        if (!tells(state.uid, state.id)) lines.push_back(fmt::format("{}{}", id_head, state.id));
        append_folded(buffer_, lines);
        buffer_ += content_;
        append_folded(buffer_, {"END:VEVENT"});
        if (buffer_.size() < chunk_size) return;
        sink_(buffer_);
        buffer_.clear();
    }

    const Feed& feed_;
    const PreviousFeed& previous_;
    std::chrono::sys_seconds now_;
    const Sink& sink_;
    Pairing pairing_;
    UsedZones zones_;
    bool is_any_shown_ = false;
    // Previous events that no event goes on and that are still written.
    std::vector<std::size_t> kept_;
    // What waits for the sink, and the content of the event at hand.
    std::string buffer_;
    std::string content_;
};

}  // namespace

void write(const Feed& feed, const PreviousFeed& previous, std::chrono::sys_seconds now,
           const Sink& sink) {
    Writer(feed, previous, now, sink).run();
}

std::string write(const Feed& feed, const PreviousFeed& previous, std::chrono::sys_seconds now) {
    std::string text;
    write(feed, previous, now, [&text](std::string_view part) { text += part; });
    return text;
}

}  // namespace stave::calendar
