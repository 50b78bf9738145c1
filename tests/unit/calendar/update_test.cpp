// How a feed follows its previous text: RFC 5545, sections 3.8.7.2 to 3.8.7.4.
#include <gtest/gtest.h>

#include <string>

#include "backends/calendar/feed.hpp"
#include "tests/unit/calendar/feed_testing.hpp"

namespace stave::calendar::testing {
namespace {

TEST(Update, an_unchanged_feed_is_the_same_byte_for_byte) {
    const std::string first = write(sample(), {}, first_build);
    EXPECT_EQ(rewrite(sample(), first, second_build), first);
}

TEST(Update, a_changed_event_alone_gets_a_new_stamp_and_sequence) {
    const std::string first = write(sample(), {}, first_build);
    HeldFeed changed = sample();
    changed.events[1].summary = "Slack water, again";
    const std::string second = rewrite(changed, first, second_build);
    EXPECT_EQ(values(second, "SEQUENCE:"), (Texts{"0", "1", "0"}));
    EXPECT_EQ(values(second, "DTSTAMP:"),
              (Texts{"20261101T120000Z", "20261108T093000Z", "20261101T120000Z"}));
    EXPECT_EQ(values(second, "LAST-MODIFIED:"), values(second, "DTSTAMP:"));
    EXPECT_EQ(values(second, "CREATED:"), Texts(3, "20261101T120000Z"));
    EXPECT_EQ(values(second, "UID:"), values(first, "UID:"));
    EXPECT_EQ(rewrite(changed, second, second_build), second);
}

TEST(Update, every_content_field_counts_as_a_change) {
    const std::string first = write(sample(), {}, first_build);
    const auto sequence_after = [&first](auto change) {
        HeldFeed changed = sample();
        change(changed.events[0]);
        return values(rewrite(changed, first, second_build), "SEQUENCE:").front();
    };
    EXPECT_EQ(sequence_after([](Event& event) { event.start += std::chrono::hours{1}; }), "1");
    EXPECT_EQ(sequence_after([](Event& event) { event.length += std::chrono::minutes{1}; }), "1");
    EXPECT_EQ(sequence_after([](Event& event) { event.zone = nullptr; }), "1");
    EXPECT_EQ(sequence_after([](Event& event) { event.description += "."; }), "1");
    EXPECT_EQ(sequence_after([](Event& event) { event.location.clear(); }), "1");
    EXPECT_EQ(sequence_after([](Event&) {}), "0");
}

TEST(Update, the_sequence_goes_on_from_change_to_change) {
    std::string text = write(sample(), {}, first_build);
    HeldFeed changed = sample();
    for (int change = 1; change <= 12; ++change) {
        changed.events[2].summary += "!";
        text = rewrite(changed, text, second_build + std::chrono::hours{change});
        EXPECT_EQ(values(text, "SEQUENCE:")[2], std::to_string(change));
    }
}

TEST(Update, a_new_stamp_is_later_even_where_the_clock_was_set_back) {
    const std::string first = write(sample(), {}, second_build);
    HeldFeed changed = sample();
    changed.events[0].summary += "!";
    for (const auto now : {first_build, second_build}) {
        const std::string second = rewrite(changed, first, now);
        EXPECT_EQ(values(second, "DTSTAMP:").front(), "20261108T093001Z");
        EXPECT_EQ(values(second, "CREATED:").front(), "20261108T093000Z");
    }
}

TEST(Update, a_new_event_starts_at_sequence_0_and_leaves_the_others) {
    const std::string first = write(sample(), {}, first_build);
    HeldFeed grown = sample();
    grown.events.insert(grown.events.begin(), event("session-8", local(2026, 11, 26, 18, 30)));
    const std::string second = rewrite(grown, first, second_build);
    EXPECT_EQ(values(second, "SEQUENCE:"), (Texts{"0", "0", "0", "0"}));
    EXPECT_EQ(values(second, "CREATED:"), (Texts{"20261108T093000Z", "20261101T120000Z",
                                                 "20261101T120000Z", "20261101T120000Z"}));
}

TEST(Update, order_of_the_sessions_changes_no_event) {
    const std::string first = write(sample(), {}, first_build);
    HeldFeed turned = sample();
    std::swap(turned.events[0], turned.events[2]);
    const std::string second = rewrite(turned, first, second_build);
    EXPECT_EQ(values(second, "SEQUENCE:"), (Texts{"0", "0", "0"}));
    EXPECT_EQ(values(second, "DTSTAMP:"), Texts(3, "20261101T120000Z"));
}

}  // namespace
}  // namespace stave::calendar::testing
