// Writes a feed's page whose sessions have the titles of standard input, a zero byte behind
// each: what the compiler would refuse too.
#include <iostream>
#include <iterator>
#include <string>

#include "backends/site/site.hpp"

int main() {
    const std::string text(std::istreambuf_iterator<char>(std::cin), {});
    stave::site::FeedPage page;
    page.is_private = true;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find('\0', at);
        stave::site::Entry entry;
        entry.title = text.substr(at, end - at);
        entry.place = entry.title;
        entry.length = entry.title;
        entry.zone = entry.title;
        entry.link = entry.title;
        entry.card = entry.title;
        entry.date = std::chrono::year_month_day(std::chrono::sys_days(std::chrono::days(20'000)));
        page.feed.title += entry.title;
        page.entries.push_back(std::move(entry));
        at = end + 1;
    }
    std::cout << stave::site::write(page, std::chrono::sys_days{});
}
