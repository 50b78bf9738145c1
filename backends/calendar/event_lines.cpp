#include "backends/calendar/event_lines.hpp"

#include "backends/calendar/feed_format.hpp"
#include "backends/calendar/previous.hpp"
#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::calendar {

namespace {

using wording::Language;
using wording::Word;

constexpr std::string_view summary_head = "SUMMARY:";
constexpr std::string_view description_head = "DESCRIPTION:";

std::string summary_line(std::string_view summary) {
    return std::string{summary_head} + text_value(summary, Lines::one, longest_summary);
}

std::string description_line(std::string_view description) {
    return std::string{description_head} +
           text_value(description, Lines::many, longest_description);
}

std::string cancelled_summary(std::string_view summary, Language language) {
    return wording::said(language, Word::cancelled_title, {summary});
}

std::string cancelled_description(std::string_view description, std::string_view reason,
                                  Language language) {
    std::string text =
        reason.empty()
            ? std::string{wording::word(language, Word::does_not_take_place)}
            : wording::labelled(language, wording::word(language, Word::cancelled), reason);
    if (!description.empty()) text.append("\n\n").append(description);
    return text;
}

void append_status(ContentLines& lines, bool is_cancelled) {
    lines.emplace_back(is_cancelled ? "STATUS:CANCELLED" : "STATUS:CONFIRMED");
    // RFC 5545, section 3.8.2.7: it takes no time of anybody's.
    lines.emplace_back(is_cancelled ? "TRANSP:TRANSPARENT" : "TRANSP:OPAQUE");
}

}  // namespace

std::string text_value(std::string_view text, Lines lines, std::size_t limit) {
    return escape(shorten(clean(text, lines), limit));
}

ContentLines content_lines(const Event& event, Language language) {
    const bool is_cancelled = event.status != EventStatus::confirmed;
    ContentLines lines;
    if (is_cancelled) {
        lines.push_back(summary_line(cancelled_summary(event.summary, language)));
        lines.push_back(
            description_line(cancelled_description(event.description, event.reason, language)));
    } else {
        lines.push_back(summary_line(event.summary));
        if (!event.description.empty()) lines.push_back(description_line(event.description));
    }
    if (!event.location.empty()) {
        lines.push_back("LOCATION:" + text_value(event.location, Lines::one, longest_location));
    }
    // RFC 5545, section 3.8.4.6: a URI, which unlike a text escapes nothing.
    if (!event.url.empty()) lines.push_back("URL:" + clean(event.url, Lines::one));
    append_status(lines, is_cancelled);
    return lines;
}

ContentLines cancelled_lines(std::string_view content, Language language) {
    ContentLines before;
    std::string description;
    for (std::string& line : unfold(content)) {
        if (line.starts_with(description_head)) {
            description = unescape(line.substr(description_head.size()));
        } else if (!line.starts_with("STATUS:") && !line.starts_with("TRANSP:")) {
            before.push_back(std::move(line));
        }
    }
    ContentLines lines;
    for (std::string& line : before) {
        if (!line.starts_with(summary_head)) {
            lines.push_back(std::move(line));
            continue;
        }
        const std::string summary = unescape(line.substr(summary_head.size()));
        lines.push_back(summary_line(cancelled_summary(summary, language)));
        lines.push_back(description_line(cancelled_description(description, "", language)));
    }
    append_status(lines, true);
    return lines;
}

}  // namespace stave::calendar
