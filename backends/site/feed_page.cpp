#include <fmt/format.h>

#include "backends/site/frame.hpp"
#include "backends/site/html.hpp"

namespace stave::site {

std::string write(const FeedPage& page, std::chrono::sys_days today) {
    const wording::Language language = page.language;
    std::string header;
    if (!page.index.empty()) {
        header += fmt::format("<nav aria-label=\"{0}\">{1}</nav>\n",
                              words(language, wording::Word::site_calendars),
                              anchor({page.index, words(language, wording::Word::site_all)}));
    }
    header += fmt::format("<h1>{}</h1>\n", isolated(page.feed.title));
    if (page.is_private)
        header += paragraph(words(language, wording::Word::site_private), "private");
    const bool has_feed = !page.feed.file.empty();
    std::string main;
    if (has_feed) {
        main += section("subscribe", words(language, wording::Word::site_calendar),
                        feed_links(language, page.feed));
    }
    main += sessions(language, page.entries, today);
    if (has_feed) main += how_to(language, !page.feed.address.empty());
    return framed({language, page.feed.title, page.is_private, header, main});
}

}  // namespace stave::site
