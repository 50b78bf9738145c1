#include <fmt/format.h>

#include "backends/site/frame.hpp"
#include "backends/site/html.hpp"

namespace stave::site {

namespace {

using wording::Language;
using wording::Word;

// `webcal:` is what calendar programs register for an address to subscribe to.
std::string to_subscribe(std::string_view address) {
    return fmt::format("webcal{}", address.substr(address.find(':')));
}

}  // namespace

std::string feed_links(Language language, const FeedLinks& feed) {
    std::string html;
    if (!feed.address.empty()) {
        html += paragraph(anchor({to_subscribe(feed.address), words(language, Word::site_subscribe),
                                  feed.title, "button"}));
    }
    const std::string& shown = feed.address.empty() ? feed.file : feed.address;
    html +=
        paragraph(fmt::format("{}{} {}", words(language, Word::site_address),
                              words(language, Word::colon), anchor({feed.file, escaped(shown)})),
                  "address");
    return html;
}

std::string how_to(Language language, bool has_address) {
    struct Way {
        Word device;
        Word how;
    };
    constexpr Way ways[] = {{Word::site_apple, Word::site_apple_how},
                            {Word::site_android, Word::site_android_how},
                            {Word::site_web, Word::site_web_how},
                            {Word::site_desktop, Word::site_desktop_how}};
    std::string html;
    if (has_address) html += paragraph(words(language, Word::site_how_button));
    html += paragraph(words(language, Word::site_how_address));
    html += "<dl>\n";
    for (const Way& way : ways) {
        html += fmt::format("<dt>{}</dt>\n<dd>{}</dd>\n", words(language, way.device),
                            words(language, way.how));
    }
    html += "</dl>\n";
    html += paragraph(fmt::format("<strong>{}</strong>", words(language, Word::site_no_import)));
    return section("how", words(language, Word::site_how), html) +
           section("late", words(language, Word::site_late_title),
                   paragraph(words(language, Word::site_late)));
}

}  // namespace stave::site
