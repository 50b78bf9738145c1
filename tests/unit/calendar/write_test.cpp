// The whole feed: RFC 5545 and, for NAME, REFRESH-INTERVAL and COLOR, RFC 7986.
// Real calendar programs read feeds in tests/clients.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/feed.hpp"
#include "tests/unit/calendar/feed_testing.hpp"

namespace stave::calendar::testing {
namespace {

const std::chrono::sys_seconds now = utc(2026, 11, 1, 12, 0);

std::string written(const Event& event) {
    return write(feed({event}), {}, now);
}

TEST(Write, puts_properties_in_one_order) {
    const Event row = event("session-9", local(2026, 12, 3, 18, 30));
    EXPECT_EQ(lines(written(row)), (Texts{"BEGIN:VCALENDAR",
                                          "VERSION:2.0",
                                          "PRODID:-//Stave//Session calendar feed//EN",
                                          "CALSCALE:GREGORIAN",
                                          "NAME:Skerry Point\\, winter",
                                          "X-WR-CALNAME:Skerry Point\\, winter",
                                          "DESCRIPTION:Training sessions\\, one event each.",
                                          "X-WR-CALDESC:Training sessions\\, one event each.",
                                          "REFRESH-INTERVAL;VALUE=DURATION:PT1H",
                                          "X-PUBLISHED-TTL:PT1H",
                                          "COLOR:steelblue",
                                          "X-STAVE-FORMAT:1",
                                          "BEGIN:VEVENT",
                                          "UID:skerry-winter.session-9@feeds.stave.invalid",
                                          "DTSTAMP:20261101T120000Z",
                                          "CREATED:20261101T120000Z",
                                          "LAST-MODIFIED:20261101T120000Z",
                                          "SEQUENCE:0",
                                          "DTSTART:20261203T183000",
                                          "DTEND:20261203T191000",
                                          "SUMMARY:Slack water",
                                          "DESCRIPTION:40 min\\, Boathouse loft\\nA Row: 4 × 5 min",
                                          "LOCATION:Boathouse loft",
                                          "STATUS:CONFIRMED",
                                          "TRANSP:OPAQUE",
                                          "END:VEVENT",
                                          "END:VCALENDAR"}));
}

TEST(Write, a_regular_zone_gives_local_times_and_one_vtimezone_before_the_events) {
    const civil::Zone& lisbon = zone("Europe/Lisbon");
    const std::string text = write(feed({event("a", local(2026, 7, 3, 18, 30), &lisbon),
                                         event("b", local(2026, 12, 3, 18, 30), &lisbon)}),
                                   {}, now);
    EXPECT_EQ(values(text, "DTSTART;"),
              (Texts{"TZID=Europe/Lisbon:20260703T183000", "TZID=Europe/Lisbon:20261203T183000"}));
    EXPECT_EQ(values(text, "DTEND;"),
              (Texts{"TZID=Europe/Lisbon:20260703T191000", "TZID=Europe/Lisbon:20261203T191000"}));
    EXPECT_EQ(values(text, "TZID:"), Texts{"Europe/Lisbon"});
    EXPECT_LT(text.find("END:VTIMEZONE"), text.find("BEGIN:VEVENT"));
}

TEST(Write, an_irregular_zone_gives_utc_and_no_vtimezone) {
    // zdump: Casablanca is at +00 from 15 February to 22 March 2026, else at +01.
    const civil::Zone& casablanca = zone("Africa/Casablanca");
    const std::string text = write(feed({event("a", local(2026, 3, 1, 18, 30), &casablanca),
                                         event("b", local(2026, 5, 1, 18, 30), &casablanca)}),
                                   {}, now);
    const Texts starts = values(text, "DTSTART:");
    EXPECT_EQ(starts, (Texts{"20260301T183000Z", "20260501T173000Z"}));
    EXPECT_EQ(values(text, "DTEND:"), (Texts{"20260301T191000Z", "20260501T181000Z"}));
    EXPECT_EQ(text.find("VTIMEZONE"), std::string::npos);
}

TEST(Write, times_that_come_twice_are_utc) {
    const civil::Zone& lisbon = zone("Europe/Lisbon");
    // 00:30 for 40 minutes ends at the first 01:10 of two.
    const std::string text = written(event("a", local(2026, 10, 25, 0, 30), &lisbon));
    EXPECT_EQ(values(text, "DTSTART:"), Texts{"20261024T233000Z"});
    EXPECT_EQ(values(text, "DTEND:"), Texts{"20261025T001000Z"});
    EXPECT_EQ(text.find("VTIMEZONE"), std::string::npos);
}

TEST(Write, a_start_that_comes_twice_or_never_is_utc) {
    const civil::Zone& lisbon = zone("Europe/Lisbon");
    Event row = event("a", local(2026, 10, 25, 1, 30), &lisbon);
    row.length = std::chrono::hours{3};
    EXPECT_EQ(values(written(row), "DTSTART:"), Texts{"20261025T003000Z"});
    EXPECT_EQ(values(written(row), "DTEND:"), Texts{"20261025T033000Z"});
    row.start = local(2026, 3, 29, 1, 30);
    EXPECT_EQ(values(written(row), "DTSTART:"), Texts{"20260329T010000Z"});
}

TEST(Write, a_zone_that_changed_its_rules_after_the_first_event_is_irregular) {
    // The United States moved their changes in 2007.
    const civil::Zone& new_york = zone("America/New_York");
    const Event early = event("a", local(2005, 7, 3, 18, 30), &new_york);
    const Event late = event("b", local(2026, 7, 3, 18, 30), &new_york);
    const Texts starts{"20050703T223000Z", "20260703T223000Z"};
    EXPECT_EQ(values(write(feed({early, late}), {}, now), "DTSTART:"), starts);
    EXPECT_EQ(values(write(feed({late, early}), {}, now), "DTSTART:"),
              (Texts{starts[1], starts[0]}));
}

TEST(Write, the_length_holds_over_a_change_of_the_clock) {
    const civil::Zone& lisbon = zone("Europe/Lisbon");
    const std::string text = written(event("a", local(2026, 3, 29, 0, 30), &lisbon));
    EXPECT_EQ(values(text, "DTEND;"), Texts{"TZID=Europe/Lisbon:20260329T021000"});
}

TEST(Write, zones_stand_in_alphabetical_order_whatever_the_events_order) {
    const std::string text =
        write(feed({event("a", local(2026, 7, 3, 18, 30), &zone("Europe/Lisbon")),
                    event("b", local(2026, 7, 3, 18, 30), &zone("Asia/Tokyo"))}),
              {}, now);
    EXPECT_EQ(values(text, "TZID:"), (Texts{"Asia/Tokyo", "Europe/Lisbon"}));
}

TEST(Write, a_zone_name_that_would_break_the_line_is_never_written) {
    const civil::Zone odd{"Europe/Lisbon:1\r\nBEGIN:VALARM", {{utc(1970, 1, 1, 0, 0), {}, "X"}}};
    const std::string text = written(event("a", local(2026, 7, 3, 18, 30), &odd));
    EXPECT_EQ(values(text, "DTSTART:"), Texts{"20260703T183000Z"});
    EXPECT_EQ(text.find("VALARM"), std::string::npos);
}

TEST(Write, an_event_ends_after_it_starts) {
    Event short_event = event("a", local(2026, 12, 3, 18, 30));
    short_event.length = std::chrono::minutes{0};
    EXPECT_EQ(values(written(short_event), "DTEND:"), Texts{"20261203T183100"});
}

// RFC 5545, section 3.8.4.6: a URI, in which nothing is escaped.
TEST(Write, an_address_stands_as_it_is_and_its_change_is_a_change) {
    Event linked = event("a", local(2026, 12, 3, 18, 30));
    EXPECT_TRUE(values(written(linked), "URL").empty());
    linked.url = "https://example.org/a;b,c?d=e#f" + std::string(80, 'x');
    const std::string text = written(linked);
    EXPECT_EQ(values(text, "URL:"), Texts{linked.url});
    EXPECT_EQ(rewrite(feed({linked}), text, now), text);
    linked.url = "https://example.org\r\nMETHOD:PUBLISH";
    const std::string changed = rewrite(feed({linked}), text, now);
    EXPECT_EQ(values(changed, "SEQUENCE:"), Texts{"1"});
    EXPECT_TRUE(values(changed, "METHOD").empty());
}

TEST(Write, hostile_titles_stay_inside_their_line) {
    Event hostile = event("a", local(2026, 12, 3, 18, 30));
    hostile.summary = "Row\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nUID:x\x1B[2J\xFF";
    hostile.description = "a\r\nATTENDEE:mailto:x@example.org\u2028END:VCALENDAR";
    hostile.location = ",;\\\nDTSTART:19700101";
    HeldFeed hostile_feed = feed({hostile});
    hostile_feed.title = "Crew\r\nMETHOD:PUBLISH";
    const std::string text = write(hostile_feed, {}, now);
    EXPECT_EQ(values(text, "SUMMARY:"), Texts{"Row END:VEVENT BEGIN:VEVENT UID:x[2J\uFFFD"});
    EXPECT_EQ(values(text, "LOCATION:"), Texts{"\\,\\;\\\\ DTSTART:19700101"});
    EXPECT_EQ(values(text, "X-WR-CALNAME:"), Texts{"Crew METHOD:PUBLISH"});
    for (const std::string_view head : {"BEGIN:VEVENT", "END:VEVENT", "UID:", "END:VCALENDAR"}) {
        EXPECT_EQ(values(text, head).size(), 1U) << head;
    }
    for (const std::string_view head : {"METHOD", "ATTENDEE", "X-WR-TIMEZONE"}) {
        EXPECT_TRUE(values(text, head).empty()) << head;
    }
    EXPECT_TRUE(read(text).has_value());
}

TEST(Write, long_texts_are_cut_to_what_programs_keep) {
    Event wordy = event("a", local(2026, 12, 3, 18, 30));
    wordy.summary.clear();
    for (int count = 0; count < 200; ++count)
        wordy.summary += "🚣";
    wordy.description = std::string(9000, 'x');
    const std::string text = written(wordy);
    EXPECT_EQ(utf16_length(values(text, "SUMMARY:").front()), 255U);
    EXPECT_EQ(utf16_length(values(text, "DESCRIPTION:xx").front()) + 2, 8000U);
}

TEST(Write, every_line_ends_in_cr_lf_and_has_at_most_75_octets) {
    Event wordy = event("a", local(2026, 12, 3, 18, 30), &zone("America/Argentina/Buenos_Aires"));
    wordy.description.clear();
    for (int count = 0; count < 100; ++count)
        wordy.description += "4 × 5, поднять; 🚣\n";
    const std::string text = written(wordy);
    EXPECT_TRUE(text.ends_with("\r\n"));
    EXPECT_EQ(std::count(text.begin(), text.end(), '\n'),
              std::count(text.begin(), text.end(), '\r'));
    for (const std::string& line : raw_lines(text)) {
        EXPECT_LE(line.size(), 75U);
        EXPECT_EQ(clean(line, Lines::one), line);
    }
}

TEST(Write, omits_properties_without_a_value) {
    Event bare = event("a", local(2026, 12, 3, 18, 30));
    bare.description.clear();
    bare.location.clear();
    const std::string text = written(bare);
    EXPECT_EQ(values(text, "DESCRIPTION:").size(), 1U) << "the calendar's own";
    EXPECT_TRUE(values(text, "LOCATION").empty());
}

}  // namespace
}  // namespace stave::calendar::testing
