// Events that are cancelled, skipped, gone or brought back: RFC 5545, sections 3.8.1.11
// (STATUS), 3.8.2.7 (TRANSP) and 3.8.7.4 (SEQUENCE).
#include <gtest/gtest.h>

#include <string>

#include "backends/calendar/feed.hpp"
#include "tests/unit/calendar/feed_testing.hpp"

namespace stave::calendar::testing {
namespace {

// 3 and 10 December, 18:30 to 19:10 UTC.
HeldFeed sample() {
    return feed({event("session-1", local(2026, 12, 3, 18, 30), &zone("Europe/Lisbon")),
                 event("session-2", local(2026, 12, 10, 18, 30), &zone("Europe/Lisbon"))});
}

HeldFeed with_status(EventStatus status, std::string reason) {
    HeldFeed changed = sample();
    changed.events[1].status = status;
    changed.events[1].reason = std::move(reason);
    return changed;
}

HeldFeed without_second() {
    HeldFeed changed = sample();
    changed.events.pop_back();
    return changed;
}

std::string first() {
    return write(sample(), {}, first_build);
}

// The lines of the last event.
Texts last_event(const std::string& text) {
    Texts found = lines(text.substr(text.rfind("BEGIN:VEVENT")));
    found.pop_back();
    return found;
}

TEST(Gone, one_that_is_still_ahead_is_announced_as_cancelled) {
    EXPECT_EQ(
        last_event(rewrite(without_second(), first(), second_build)),
        (Texts{"BEGIN:VEVENT", "UID:skerry-winter.session-2@feeds.stave.invalid",
               "DTSTAMP:20261108T093000Z", "CREATED:20261101T120000Z",
               "LAST-MODIFIED:20261108T093000Z", "SEQUENCE:1",
               "DTSTART;TZID=Europe/Lisbon:20261210T183000",
               "DTEND;TZID=Europe/Lisbon:20261210T191000", "SUMMARY:CANCELLED - Slack water",
               "DESCRIPTION:This session does not take place.\\n\\n40 min\\, Boathouse "
               "loft\\nA Row: 4 × 5 min",
               "LOCATION:Boathouse loft", "STATUS:CANCELLED", "TRANSP:TRANSPARENT", "END:VEVENT"}));
}

TEST(Gone, a_cancelled_event_stays_as_it_is_until_thirty_days_after_its_end) {
    const std::string second = rewrite(without_second(), first(), second_build);
    EXPECT_EQ(rewrite(without_second(), second, utc(2026, 12, 1, 0, 0)), second);
    EXPECT_EQ(rewrite(without_second(), second, utc(2027, 1, 9, 19, 9)), second);
    const std::string later = rewrite(without_second(), second, utc(2027, 1, 9, 19, 10));
    EXPECT_EQ(values(later, "UID:").size(), 1U);
}

TEST(Gone, one_that_is_over_stays_as_it_was_for_thirty_days) {
    EXPECT_EQ(rewrite(without_second(), first(), utc(2026, 12, 10, 19, 10)), first());
    EXPECT_EQ(rewrite(without_second(), first(), utc(2027, 1, 9, 19, 9)), first());
    EXPECT_EQ(values(rewrite(without_second(), first(), utc(2027, 1, 9, 19, 10)), "UID:").size(),
              1U);
}

TEST(Gone, a_floating_one_is_over_when_it_is_over_everywhere) {
    HeldFeed floating = sample();
    floating.events[1].zone = nullptr;
    const std::string before = write(floating, {}, first_build);
    EXPECT_EQ(values(rewrite(without_second(), before, utc(2026, 12, 11, 7, 9)), "STATUS:"),
              (Texts{"CONFIRMED", "CANCELLED"}));
    EXPECT_EQ(rewrite(without_second(), before, utc(2026, 12, 11, 7, 10)), before);
}

TEST(Gone, one_that_comes_back_is_the_same_event_and_confirmed) {
    const std::string second = rewrite(without_second(), first(), second_build);
    const std::string third = rewrite(sample(), second, second_build);
    EXPECT_EQ(values(third, "UID:"), values(first(), "UID:"));
    EXPECT_EQ(values(third, "SEQUENCE:"), (Texts{"0", "2"}));
    EXPECT_EQ(values(third, "STATUS:"), (Texts{"CONFIRMED", "CONFIRMED"}));
    EXPECT_EQ(values(third, "SUMMARY:"), values(first(), "SUMMARY:"));
    // Later than the cancellation, though the clock has not moved.
    EXPECT_EQ(values(third, "LAST-MODIFIED:").back(), "20261108T093001Z");
}

TEST(Gone, the_last_event_stays_since_a_calendar_may_not_be_empty) {
    const std::string late = rewrite(feed({}), first(), utc(2028, 1, 1, 0, 0));
    EXPECT_EQ(values(late, "UID:"), Texts{"skerry-winter.session-2@feeds.stave.invalid"});
    EXPECT_EQ(values(late, "TZID:"), Texts{"Europe/Lisbon"});
    EXPECT_EQ(rewrite(feed({}), late, utc(2029, 1, 1, 0, 0)), late);
    EXPECT_EQ(write(feed({}), {}, first_build), "");
}

TEST(Status, cancelled_is_announced_to_everybody_with_its_reason_first) {
    const HeldFeed cancelled = with_status(EventStatus::cancelled, "Ice on the slip; stay home");
    for (const std::string& text :
         {write(cancelled, {}, second_build), rewrite(cancelled, first(), second_build)}) {
        EXPECT_EQ(values(text, "STATUS:"), (Texts{"CONFIRMED", "CANCELLED"}));
        EXPECT_EQ(values(text, "TRANSP:"), (Texts{"OPAQUE", "TRANSPARENT"}));
        EXPECT_EQ(values(text, "SUMMARY:").back(), "CANCELLED - Slack water");
        EXPECT_TRUE(
            values(text, "DESCRIPTION:").back().starts_with("Cancelled: Ice on the slip\\; stay"));
        EXPECT_EQ(rewrite(cancelled, text, utc(2026, 12, 1, 0, 0)), text);
    }
}

TEST(Status, a_cancelled_event_stays_at_the_time_that_athletes_have) {
    HeldFeed moved = with_status(EventStatus::cancelled, "");
    moved.events[1].start += std::chrono::hours{48};
    const std::string text = rewrite(moved, first(), second_build);
    EXPECT_EQ(values(text, "DTSTART;"), values(first(), "DTSTART;"));
    EXPECT_EQ(values(text, "DTEND;"), values(first(), "DTEND;"));
}

TEST(Status, skipped_is_shown_only_where_athletes_have_seen_the_event) {
    const HeldFeed skipped = with_status(EventStatus::skipped, "Harbour fair");
    EXPECT_EQ(values(write(skipped, {}, second_build), "UID:").size(), 1U);
    const std::string text = rewrite(skipped, first(), second_build);
    EXPECT_EQ(values(text, "STATUS:"), (Texts{"CONFIRMED", "CANCELLED"}));
    EXPECT_EQ(values(rewrite(skipped, text, utc(2027, 1, 9, 19, 10)), "UID:").size(), 1U);
}

TEST(Status, a_feed_whose_only_event_is_skipped_and_long_over_stays_a_feed) {
    HeldFeed one = feed({sample().events[1]});
    const std::string before = write(one, {}, first_build);
    one.events[0].status = EventStatus::skipped;
    const std::string text = rewrite(one, before, utc(2028, 1, 1, 0, 0));
    EXPECT_EQ(values(text, "UID:").size(), 1U);
    EXPECT_TRUE(read(text).has_value());
}

TEST(Status, every_language_marks_a_cancelled_event) {
    for (const wording::Language language : wording::languages) {
        HeldFeed cancelled = with_status(EventStatus::cancelled, "");
        cancelled.language = language;
        const std::string summary = values(write(cancelled, {}, second_build), "SUMMARY:").back();
        EXPECT_TRUE(summary.ends_with(" - Slack water")) << summary;
    }
}

// Until when the feed over that text is known to stay as it is.
std::chrono::sys_seconds same_until(const Feed& feed, const std::string& previous,
                                    std::chrono::sys_seconds now) {
    return write(feed, *read(previous), now, [](std::string_view) {}).same_until;
}

TEST(Unchanged, a_feed_without_gone_events_stays_for_good) {
    EXPECT_EQ(same_until(sample(), first(), second_build), std::chrono::sys_seconds::max());
    const HeldFeed cancelled = with_status(EventStatus::cancelled, "gale");
    EXPECT_EQ(same_until(cancelled, first(), second_build), std::chrono::sys_seconds::max());
}

TEST(Unchanged, a_feed_with_gone_or_skipped_events_stays_until_they_are_dropped) {
    const auto dropped = utc(2027, 1, 9, 19, 10);
    EXPECT_EQ(same_until(without_second(), first(), second_build), dropped);
    EXPECT_EQ(same_until(with_status(EventStatus::skipped, ""), first(), second_build), dropped);
    HeldFeed floating = sample();
    floating.events[1].zone = nullptr;
    EXPECT_EQ(same_until(without_second(), write(floating, {}, first_build), second_build),
              dropped + std::chrono::hours(12));
    EXPECT_EQ(same_until(without_second(), first(), dropped), std::chrono::sys_seconds::max());
}

// What is left out could go on a gone one, once the others have found theirs by name.
TEST(Unchanged, nothing_is_known_where_some_are_gone_and_some_left_out) {
    HeldFeed both = with_status(EventStatus::skipped, "");
    both.events[1].id = both.events[1].session = "session-3";
    both.events[1].start += std::chrono::days(30);
    EXPECT_EQ(same_until(both, first(), second_build), second_build);
}

}  // namespace
}  // namespace stave::calendar::testing
