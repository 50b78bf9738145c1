// Reading back what was written, and refusing everything else.
#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

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
    const auto& events = feed->events;
    ASSERT_EQ(events.size(), 3U);
    EXPECT_EQ(events[0].start, (Moment{utc(2026, 12, 3, 18, 30), false}));
    EXPECT_EQ(events[0].end, (Moment{utc(2026, 12, 3, 19, 10), false}));
    EXPECT_EQ(feed->zone_names.at(events[0].zone_id.value()), "Europe/Lisbon");
    const auto first = read_event(events[0], lines_of(*feed, events[0]).value());
    ASSERT_TRUE(first.has_value());
    EXPECT_EQ(first->uid, "skerry-winter.session-9@feeds.stave.invalid");
    EXPECT_EQ(first->sequence, 0);
    EXPECT_EQ(first->id, "session-9");
    EXPECT_EQ(first->created, first_build);
    EXPECT_EQ(first->stamp, first_build);
    EXPECT_TRUE(first->content.starts_with("DTSTART;TZID=Europe/Lisbon:20261203T183000\r\n"));
    EXPECT_TRUE(first->content.ends_with("TRANSP:OPAQUE\r\n"));
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

// Longer than what is read at once, by lines of every length.
HeldFeed long_feed() {
    HeldFeed feed = sample();
    for (unsigned number = 0; number < 400; ++number) {
        Event made = event("session-" + std::to_string(100 + number),
                           local(2027, 1, 1, 6, 0) + std::chrono::hours{24} * number,
                           &zone("Europe/Lisbon"));
        made.description += std::string(number, 'x');
        feed.events.push_back(std::move(made));
    }
    return feed;
}

TEST(ReadPrevious, a_text_that_is_read_in_parts_is_the_same_text) {
    const std::string good = write(long_feed(), {}, first_build);
    ASSERT_GT(good.size(), 200'000U);
    const auto before = read(good);
    ASSERT_TRUE(before.has_value());
    EXPECT_EQ(write(long_feed(), *before, second_build), good);
}

TEST(ReadPrevious, a_text_that_was_cut_meanwhile_is_not_written_over) {
    const std::string good = write(long_feed(), {}, first_build);
    std::size_t left = good.size();
    const PartedText text{good.size(), [&](std::size_t offset, std::size_t count) {
                              return good.substr(0, left).substr(std::min(offset, left), count);
                          }};
    const auto before = read_previous(text, zone_loader().finder());
    ASSERT_TRUE(before.has_value());
    left = good.size() / 2;
    EXPECT_FALSE(write(long_feed(), *before, second_build, [](std::string_view) {}).is_whole);
    EXPECT_FALSE(read_previous(text, zone_loader().finder()).has_value());
}

TEST(ReadPrevious, refuses_lines_and_events_beyond_all_measure) {
    const std::string good = write(sample(), {}, first_build);
    const std::string endless(3'000'000, 'x');
    std::string many;
    for (int number = 0; number < 100'000; ++number)
        many += "X-LINE:0123456789\r\n";
    EXPECT_EQ(fault(with(good, "SUMMARY:", "X-LINE:" + endless + "\r\nSUMMARY:")),
              FeedFault::damaged);
    EXPECT_EQ(fault(with(good, "SUMMARY:", many + "SUMMARY:")), FeedFault::damaged);
    EXPECT_EQ(fault(with(good, "TZID:Asia", many + "TZID:Asia")), FeedFault::damaged);
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
