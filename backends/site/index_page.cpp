#include <fmt/format.h>

#include <algorithm>

#include "backends/site/frame.hpp"
#include "backends/site/html.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::site {

namespace {

using wording::Word;

std::string list(const IndexPage& page) {
    const wording::Language language = page.language;
    if (page.lines.empty()) return paragraph(words(language, Word::site_no_calendars));
    std::string html = "<ul class=\"feeds\">\n";
    for (const IndexPage::Line& line : page.lines) {
        html += fmt::format("<li>\n<h3>{}</h3>\n", anchor({line.page, isolated(line.feed.title)}));
        const auto count = static_cast<std::int64_t>(line.session_count);
        html += paragraph(
            escaped(wording::counted(language, wording::Noun::sessions, Ratio{count})), "facts");
        if (!line.feed.file.empty()) html += feed_links(language, line.feed);
        html += "</li>\n";
    }
    return html + "</ul>\n";
}

}  // namespace

std::string write(const IndexPage& page) {
    const wording::Language language = page.language;
    const std::string header = fmt::format("<h1>{}</h1>\n", words(language, Word::site_title)) +
                               paragraph(words(language, Word::site_about));
    const bool has_address = std::ranges::any_of(
        page.lines, [](const IndexPage::Line& line) { return !line.feed.address.empty(); });
    const std::string main =
        section("calendars", words(language, Word::site_calendars), list(page)) +
        how_to(language, has_address);
    return framed({language, wording::word(language, Word::site_title), false, header, main});
}

}  // namespace stave::site
