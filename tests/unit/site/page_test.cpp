#include <gtest/gtest.h>

#include "backends/site/site.hpp"

namespace stave::site {
namespace {

using namespace std::chrono_literals;
using std::chrono::sys_days;

constexpr auto today = 2026y / 11 / 26;

Entry entry(std::string title, std::chrono::year_month_day date, std::chrono::minutes clock) {
    Entry entry;
    entry.title = std::move(title);
    entry.date = date;
    entry.clock = clock;
    entry.length = "40 min";
    entry.card = "../cards/x.pdf";
    return entry;
}

FeedPage page_of(std::vector<Entry> entries) {
    FeedPage page;
    page.feed = {"Winter", "winter.ics", "https://example.org/feeds/winter.ics"};
    page.index = "../index.html";
    page.entries = std::move(entries);
    return page;
}

std::size_t place(const std::string& html, std::string_view words) {
    const std::size_t found = html.find(words);
    EXPECT_NE(found, std::string::npos) << words;
    return found;
}

TEST(FeedPage, has_sessions_in_the_order_of_their_days) {
    const std::string html =
        write(page_of({entry("third", 2026y / 12 / 5, 9h), entry("second", 2026y / 12 / 3, 18h),
                       entry("first", 2026y / 12 / 3, 7h)}),
              sys_days{today});
    EXPECT_LT(place(html, "first"), place(html, "second"));
    EXPECT_LT(place(html, "second"), place(html, "third"));
    place(html,
          "<time datetime=\"2026-12-03T18:00\">Thu 3\u00A0December 2026, <b>18:00</b></time>");
    EXPECT_EQ(html.find("<details>"), std::string::npos);
}

TEST(FeedPage, folds_away_what_is_over_wherever_the_reader_is) {
    const std::string html = write(
        page_of({entry("over", 2026y / 11 / 24, 9h), entry("yesterday", 2026y / 11 / 25, 9h)}),
        sys_days{today});
    EXPECT_LT(place(html, "yesterday"), place(html, "<details>"));
    EXPECT_LT(place(html, "<details>"), place(html, ">over<"));
}

TEST(FeedPage, says_what_is_cancelled_and_why_and_leads_to_no_card) {
    Entry gale = entry("Slack water", 2026y / 12 / 3, 18h);
    gale.is_cancelled = true;
    gale.reason = "gale & <b>";
    gale.card.clear();
    gale.picture.clear();
    const std::string html = write(page_of({gale}), sys_days{today});
    EXPECT_LT(place(html, "Thu 3"), place(html, "<b>Cancelled: gale &amp; &lt;b&gt;</b>"));
    EXPECT_EQ(html.find("40 min"), std::string::npos);
    EXPECT_EQ(html.find("class=\"links\""), std::string::npos);
    gale.reason.clear();
    place(write(page_of({gale}), sys_days{today}), "<b>This session does not take place.</b>");
}

TEST(FeedPage, keeps_sessions_without_a_date_apart) {
    Entry undated;
    undated.title = "Between two tides";
    undated.card = "x.pdf";
    FeedPage page = page_of({undated});
    page.feed.file.clear();
    const std::string html = write(page, sys_days{today});
    EXPECT_LT(place(html, "Without a date"), place(html, "Between two tides"));
    EXPECT_EQ(html.find("id=\"sessions\""), std::string::npos);
    EXPECT_EQ(html.find("webcal"), std::string::npos);
}

TEST(FeedPage, is_subscribed_to_by_its_absolute_address) {
    FeedPage page = page_of({entry("x", 2026y / 12 / 3, 9h)});
    place(write(page, sys_days{today}), "href=\"webcal://example.org/feeds/winter.ics\"");
    page.feed.address.clear();
    const std::string html = write(page, sys_days{today});
    EXPECT_EQ(html.find("webcal"), std::string::npos);
    place(html, "<a href=\"winter.ics\">winter.ics</a>");
}

TEST(FeedPage, that_is_private_asks_not_to_be_listed_and_leads_nowhere) {
    FeedPage page = page_of({entry("x", 2026y / 12 / 3, 9h)});
    EXPECT_EQ(write(page, sys_days{today}).find("noindex"), std::string::npos);
    page.is_private = true;
    page.index.clear();
    const std::string html = write(page, sys_days{today});
    place(html, "<meta name=\"robots\" content=\"noindex, nofollow, noarchive\">");
    EXPECT_EQ(html.find("<nav"), std::string::npos);
}

TEST(IndexPage, has_a_line_for_each_feed) {
    IndexPage page;
    page.lines.push_back({{"Winter", "feeds/winter.ics", ""}, "feeds/winter.html", 1});
    page.lines.push_back({{"A & B", "", ""}, "feeds/a-b.html", 3});
    const std::string html = write(page);
    place(html, "<a href=\"feeds/winter.html\"><bdi>Winter</bdi></a>");
    place(html, "1\u00A0session<");
    place(html, "<bdi>A &amp; B</bdi>");
    place(html, "3\u00A0sessions<");
    place(write(IndexPage{}), "No calendar is listed here.");
}

TEST(Pages, say_their_language_and_their_maker) {
    for (const wording::Language language : wording::languages) {
        IndexPage page;
        page.language = language;
        const std::string html = write(page);
        place(html, std::string("<html lang=\"") + std::string(wording::tag(language)) + "\">");
        place(html, generator_mark);
    }
}

}  // namespace
}  // namespace stave::site
