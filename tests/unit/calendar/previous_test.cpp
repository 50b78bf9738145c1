// Reading back what was written, and refusing everything else.
#include <gtest/gtest.h>

#include <optional>
#include <string>

#include "backends/calendar/feed.hpp"
#include "backends/calendar/previous.hpp"
#include "tests/unit/calendar/feed_testing.hpp"

namespace stave::calendar::testing {
namespace {

// The text with one part replaced; fails where it is not there.
std::string with(std::string text, std::string_view part, std::string_view replacement) {
    const std::size_t at = text.find(part);
    EXPECT_NE(at, std::string::npos) << part;
    if (at != std::string::npos) text.replace(at, part.size(), replacement);
    return text;
}

std::optional<FeedFault> fault(std::string_view text) {
    const auto feed = read(text);
    return feed ? std::nullopt : std::optional{feed.error()};
}

TEST(ReadPrevious, gives_back_what_was_written) {
    const std::string text = write(sample(), {}, first_build);
    const auto feed = read(text);
    ASSERT_TRUE(feed.has_value());
    const std::vector<PreviousEvent>& events = feed->events;
    ASSERT_EQ(events.size(), 3U);
    EXPECT_EQ(events[0].uid, "skerry-winter.session-9@feeds.stave.invalid");
    EXPECT_EQ(events[0].sequence, 0);
    EXPECT_EQ(events[0].id, "session-9");
    EXPECT_EQ(events[0].created, first_build);
    EXPECT_EQ(events[0].stamp, first_build);
    EXPECT_EQ(events[0].start, (Moment{utc(2026, 12, 3, 18, 30), false}));
    EXPECT_EQ(events[0].end, (Moment{utc(2026, 12, 3, 19, 10), false}));
    EXPECT_EQ(events[0].zone, "Europe/Lisbon");
    EXPECT_TRUE(events[0].content.starts_with("DTSTART;TZID=Europe/Lisbon:20261203T183000\r\n"));
    EXPECT_TRUE(events[0].content.ends_with("TRANSP:OPAQUE\r\n"));
    EXPECT_EQ(events[1].start, (Moment{utc(2026, 12, 10, 18, 30), true}));
    EXPECT_EQ(events[2].start, (Moment{utc(2026, 12, 16, 22, 0), false}));
    ASSERT_EQ(feed->zones.size(), 2U);
    EXPECT_EQ(feed->zones[0].name, "Asia/Tokyo");
}

TEST(ReadPrevious, reads_feeds_whose_line_ends_were_converted) {
    const std::string first = write(sample(), {}, first_build);
    std::string converted;
    for (const char sign : first) {
        if (sign != '\r') converted += sign;
    }
    EXPECT_TRUE(read(converted).has_value());
    EXPECT_EQ(rewrite(sample(), converted, second_build), first);
}

TEST(ReadPrevious, refuses_what_this_program_has_not_written) {
    const std::string good = write(sample(), {}, first_build);
    const Texts foreign{
        "",
        "\r\n",
        "BEGIN:VCALENDAR",
        "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n",
        with(good, "-//Stave//", "-//Other//"),
        with(good, "PRODID:-//Stave", "X-WAS:-//Stave"),
    };
    for (const std::string& text : foreign)
        EXPECT_EQ(fault(text), FeedFault::foreign) << text;
}

TEST(ReadPrevious, refuses_damaged_feeds) {
    const std::string good = write(sample(), {}, first_build);
    ASSERT_TRUE(read(good).has_value());
    const Texts damaged{
        good.substr(0, good.size() / 2),
        good.substr(0, good.size() - 10),
        good + "X",
        good + good,
        with(good, "SEQUENCE:0", "SEQUENCE:-1"),
        with(good, "SEQUENCE:0", "SEQUENCE:0x"),
        with(good, "SEQUENCE:0", "SEQUENCE:99999999999999999999"),
        with(good, "SEQUENCE:0\r\n", ""),
        with(good, "SEQUENCE:0", "SEQUENCE:0\r\nSEQUENCE:1"),
        with(good, "DTSTAMP:20261101T120000Z", "DTSTAMP:20261301T120000Z"),
        with(good, "DTSTAMP:20261101T120000Z", "DTSTAMP:20261102T120000Z"),
        with(good, "CREATED:20261101T120000Z", "CREATED:yesterday"),
        with(good, "END:VEVENT\r\n", ""),
        with(good, "BEGIN:VEVENT\r\n", ""),
        with(good, "END:VTIMEZONE\r\n", ""),
        with(good, "TRANSP:OPAQUE", "BEGIN:VALARM\r\nEND:VALARM"),
        with(good, "UID:skerry-winter.session-10@", "UID:skerry-winter.session-9@"),
        with(good, "TZID:Asia/Tokyo", "TZID:Asia/Seoul"),
        with(good, "DTSTART;TZID=Asia/Tokyo:2026", "DTSTART;TZID=Asia/Tokyo:x026"),
        with(good, "DTEND;TZID=Asia/Tokyo:", "DTEND;TZID=Asia/Tokyo"),
        with(good, "X-STAVE-FORMAT:1", "X-STAVE-FORMAT:one"),
    };
    for (const std::string& text : damaged)
        EXPECT_EQ(fault(text), FeedFault::damaged) << text;
}

TEST(ReadPrevious, refuses_feeds_of_a_later_form_even_where_it_cannot_read_them) {
    const std::string good = write(sample(), {}, first_build);
    const std::string newer = with(good, "X-STAVE-FORMAT:1", "X-STAVE-FORMAT:2");
    EXPECT_EQ(fault(newer), FeedFault::newer);
    EXPECT_EQ(fault(with(newer, "SEQUENCE:0\r\n", "")), FeedFault::newer);
}

TEST(ReadPrevious, reads_feeds_of_before_the_form_had_a_number) {
    const std::string good = write(sample(), {}, first_build);
    EXPECT_EQ(rewrite(sample(), with(good, "X-STAVE-FORMAT:1\r\n", ""), second_build), good);
}

TEST(ReadPrevious, no_part_of_a_feed_is_taken_for_a_whole_one) {
    const std::string good = write(sample(), {}, first_build);
    const std::size_t last_line_end = 2;
    for (std::size_t size = 0; size + last_line_end < good.size(); ++size) {
        EXPECT_FALSE(read(std::string_view{good}.substr(0, size)).has_value()) << size;
    }
}

}  // namespace
}  // namespace stave::calendar::testing
