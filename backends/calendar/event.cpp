#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/feed.hpp"
#include "backends/calendar/feed_format.hpp"
#include "compiler/wording/told.hpp"
#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::calendar {

namespace {

using wording::Language;
using wording::Telling;
using wording::Word;

// Lines of text under construction, in one language.
class Text {
public:
    explicit Text(Language language) : language_(language) {}

    void line(std::string_view text) {
        text_ += text;
        text_ += '\n';
    }
    void labelled(Word label, const std::vector<std::string>& texts) {
        for (const std::string& text : texts)
            line(wording::labelled(language_, wording::word(language_, label), text));
    }
    void gap() { text_ += '\n'; }
    [[nodiscard]] const std::string& str() const { return text_; }

private:
    Language language_;
    std::string text_;
};

// "40 min of 55 min, Boathouse loft".
std::string first_line(const program::Session& session, const timeline::Timeline& timeline,
                       Language language) {
    std::string text = wording::duration(language, Ratio{timeline::minutes(timeline) * 60});
    if (session.when && session.when->time_limit) {
        text = wording::said(
            language, Word::of_length,
            {text, wording::duration(language, in_base_units(*session.when->time_limit))});
    }
    if (!session.place.empty()) text += ", " + session.place;
    return text;
}

void add_block(Text& text, const program::Program& program, const program::Block& block,
               Language language, Telling telling) {
    std::string head = fmt::format("{} {}", block.letter, wording::block_name(language, block));
    const std::string format = wording::format(language, block);
    text.line(format.empty() ? head : wording::labelled(language, head, format));
    for (const std::string& line : wording::below_block(language, block, telling))
        text.line(line);
    for (const program::Item& item : block.items) {
        text.line(wording::dosed(language, block, item));
        for (const std::string& line : wording::below_item(language, program, block, item, telling))
            text.line(line);
    }
}

std::string body(const program::Program& program, const program::Session& session,
                 const timeline::Timeline& timeline, Language language, Telling telling,
                 std::string_view moved) {
    Text text(language);
    if (!moved.empty()) text.line(moved);
    text.line(first_line(session, timeline, language));
    if (!session.series.empty()) text.labelled(Word::series, {session.series});
    if (const std::string place = wording::plan_place(language, session); !place.empty())
        text.line(place);
    if (!session.audience.empty()) {
        text.line(
            wording::said(language, Word::for_people_line, {wording::list(session.audience)}));
    }
    if (!session.coach.empty()) text.labelled(Word::coach_line, {session.coach});
    if (!session.kit.empty()) text.labelled(Word::kit, {wording::kit(language, session.kit)});
    text.labelled(Word::stop, session.stops);
    if (telling == Telling::full) {
        text.labelled(Word::cue, session.cues);
        text.labelled(Word::note, session.notes);
    }
    for (const program::Block& block : session.blocks) {
        text.gap();
        add_block(text, program, block, language, telling);
    }
    text.gap();
    return text.str();
}

// The card's caution without what only paper needs.
std::string caution(Language language) {
    return fmt::format("{} {} {}", wording::stop_heading(language), wording::stop_signs(language),
                       wording::word(language, Word::not_medical_advice));
}

// Whole lines from the start, together at most `limit` UTF-16 units.
std::string whole_lines(std::string_view text, std::size_t limit) {
    std::size_t kept = 0;
    std::size_t length = 0;
    while (kept < text.size()) {
        const std::size_t end = std::min(text.find('\n', kept), text.size() - 1) + 1;
        length += utf16_length(text.substr(kept, end - kept));
        if (length > limit) break;
        kept = end;
    }
    return std::string{text.substr(0, kept)};
}

std::string describe(const program::Program& program, const program::Session& session,
                     const timeline::Timeline& timeline, Language language, std::string_view card,
                     std::string_view moved) {
    std::string ending = caution(language);
    if (session.methods) ending += " " + wording::methods(language, *session.methods);
    if (!card.empty()) {
        ending += "\n\n";
        ending += wording::labelled(language, wording::word(language, Word::site_card), card);
    }
    const std::size_t room = longest_description - utf16_length(ending);
    for (const Telling telling : {Telling::full, Telling::brief}) {
        std::string text = body(program, session, timeline, language, telling, moved);
        if (utf16_length(text) <= room) return text.append(ending);
    }
    const std::string_view cut_mark = wording::word(language, Word::rest_is_on_card);
    // The mark stands on a line of its own, a blank line behind it.
    const std::size_t mark_room = utf16_length(cut_mark) + 2;
    std::string text = whole_lines(
        body(program, session, timeline, language, Telling::brief, moved), room - mark_room);
    return text.append(cut_mark).append("\n\n").append(ending);
}

// A session's number as part of a UID; empty where it has no letter or digit
// that a UID may hold.
std::string plain_number(const program::Session& session) {
    std::string plain;
    for (const char sign : session.number) {
        const bool is_digit = sign >= '0' && sign <= '9';
        const bool is_small = sign >= 'a' && sign <= 'z';
        if (is_digit || is_small || sign == '-') plain += sign;
        if (sign >= 'A' && sign <= 'Z') plain += static_cast<char>(sign - 'A' + 'a');
    }
    return plain;
}

// The slot that people keep free, where the session says how long it is.
std::optional<std::chrono::minutes> booked(const program::Session& session) {
    if (!session.when || !session.when->time_limit) return {};
    const Ratio seconds = in_base_units(*session.when->time_limit);
    return std::chrono::minutes{ceil(seconds / Ratio{60})};
}

}  // namespace

// The number alone, so that a session with a new title stays the same event; the
// slug where there is no number. `check` has refused a number used twice.
std::string session_identity(const program::Session& session) {
    const std::string number = plain_number(session);
    return number.empty() ? "titled-" + session.slug : "session-" + number;
}

std::string event_id(std::string_view session, std::string_view slot) {
    std::string id{session};
    if (!slot.empty()) id.append(".").append(slot);
    return id;
}

Events::Events(std::vector<Event> events) : count_(events.size()) {
    const auto held = std::make_shared<const std::vector<Event>>(std::move(events));
    outline_ = [held](std::size_t id) -> EventOutline {
        const Event& event = (*held)[id];
        return {event.id, event.session, event.status, event.start, event.zone};
    };
    make_ = [held](std::size_t id) { return (*held)[id]; };
}

Event make_event(const program::Program& program, const program::Session& session,
                 const timeline::Timeline& timeline, const civil::Zone* zone,
                 wording::Language language, std::string_view card, std::string_view moved) {
    Event event;
    event.session = session_identity(session);
    event.slot = session.day;
    event.id = event_id(event.session, event.slot);
    event.summary = wording::session_title(language, session);
    // Twin sessions of two groups must differ: some calendar programs take them for one.
    if (!session.group.empty()) event.summary += " (" + session.group + ")";
    event.description = describe(program, session, timeline, language, card, moved);
    event.location = session.place;
    event.url = session.link.empty() ? card : session.link;
    event.start = std::chrono::local_days{session.when->date} + session.when->clock;
    event.length = booked(session).value_or(std::chrono::minutes{timeline::minutes(timeline)});
    event.zone = zone;
    return event;
}

}  // namespace stave::calendar
