#include <fmt/format.h>

#include <algorithm>

#include "backends/site/frame.hpp"
#include "backends/site/html.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::site {

namespace {

using wording::Language;
using wording::Word;

// "Thu 3 December 2026, 18:30 Europe/Lisbon".
std::string moment(Language language, const Entry& entry) {
    const std::chrono::year_month_day day = *entry.date;
    const std::string clock = wording::clock(entry.clock);
    const std::string machine =
        fmt::format("{:04}-{:02}-{:02}T{}", static_cast<int>(day.year()),
                    static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()), clock);
    std::string text = fmt::format("<time datetime=\"{}\">{}, <b>{}</b></time>", machine,
                                   escaped(wording::date(language, day)), clock);
    if (!entry.zone.empty())
        text += fmt::format(" <span class=\"zone\">{}</span>", escaped(entry.zone));
    return text;
}

std::string links(Language language, const Entry& entry) {
    // A plan holds the same session on many days.
    std::string name = entry.title;
    if (entry.date) name += ", " + wording::date(language, *entry.date);
    std::string html = anchor({entry.card, words(language, Word::site_card), name});
    if (!entry.picture.empty())
        html += anchor({entry.picture, words(language, Word::site_picture), name});
    if (!entry.link.empty()) html += anchor({entry.link, escaped(entry.link)});
    return paragraph(html, "links");
}

std::string cancellation(Language language, const Entry& entry) {
    if (entry.reason.empty()) return words(language, Word::does_not_take_place);
    return escaped(
        wording::labelled(language, wording::word(language, Word::cancelled), entry.reason));
}

std::string item(Language language, const Entry& entry) {
    std::string html = "<li>\n";
    // The day, large, for the eye alone: the whole date follows.
    const std::string day =
        entry.date ? std::to_string(static_cast<unsigned>(entry.date->day())) : "";
    html += fmt::format("<span class=\"tab\" aria-hidden=\"true\">{}</span>\n<div>\n", day);
    html += fmt::format("<h3>{}</h3>\n", isolated(entry.title));
    if (entry.date) html += paragraph(moment(language, entry));
    if (entry.is_cancelled) {
        html += paragraph(fmt::format("<b>{}</b>", cancellation(language, entry)));
        return html + "</div>\n</li>\n";
    }
    if (!entry.moved.empty()) html += paragraph(escaped(entry.moved));
    std::string facts = escaped(entry.length);
    if (!entry.place.empty()) facts += ", " + isolated(entry.place);
    html += paragraph(facts, "facts");
    html += links(language, entry);
    return html + "</div>\n</li>\n";
}

std::string list(Language language, const std::vector<Entry>& entries) {
    std::string html = "<ol class=\"sessions\">\n";
    for (const Entry& entry : entries)
        html += item(language, entry);
    return html + "</ol>\n";
}

}  // namespace

std::string sessions(Language language, const std::vector<Entry>& entries,
                     std::chrono::sys_days today) {
    std::vector<Entry> coming;
    std::vector<Entry> earlier;
    std::vector<Entry> undated;
    for (const Entry& entry : entries) {
        const bool is_over =
            entry.date && std::chrono::sys_days{*entry.date} + std::chrono::days{1} < today;
        (!entry.date ? undated : is_over ? earlier : coming).push_back(entry);
    }
    for (std::vector<Entry>* dated : {&coming, &earlier}) {
        std::ranges::stable_sort(*dated, {}, [](const Entry& entry) {
            return std::chrono::sys_days{*entry.date} + entry.clock;
        });
    }
    std::string html;
    if (!coming.empty()) html += list(language, coming);
    if (coming.empty() && !earlier.empty())
        html += paragraph(words(language, Word::site_none_to_come));
    if (!earlier.empty()) {
        html += fmt::format("<details>\n<summary>{}</summary>\n{}</details>\n",
                            words(language, Word::site_earlier), list(language, earlier));
    }
    html = section("sessions", words(language, Word::site_sessions), html);
    if (undated.empty()) return html;
    const std::string others =
        section("undated", words(language, Word::site_undated), list(language, undated));
    return coming.empty() && earlier.empty() ? others : html + others;
}

}  // namespace stave::site
