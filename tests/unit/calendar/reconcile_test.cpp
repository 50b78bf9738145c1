// Who keeps which UID. What calendar programs make of a UID: RFC 5545, section 3.8.4.7; the
// rules of the pairing are our own.
#include <gtest/gtest.h>

#include <string>

#include "backends/calendar/feed.hpp"
#include "backends/calendar/reconcile.hpp"
#include "tests/unit/calendar/feed_testing.hpp"

namespace stave::calendar::testing {
namespace {

const std::chrono::sys_seconds first_build = utc(2026, 11, 1, 12, 0);
const std::chrono::sys_seconds second_build = utc(2026, 11, 2, 12, 0);

Event slot_event(const std::string& session, const std::string& slot,
                 std::chrono::local_seconds start) {
    Event made = event(session, start, &zone("Europe/Lisbon"));
    made.slot = slot;
    made.id = event_id(session, slot);
    return made;
}

// Two sessions a week for three weeks: Mondays and Thursdays.
HeldFeed season() {
    HeldFeed made = feed({});
    for (const unsigned monday : {7U, 14U, 21U}) {
        made.events.push_back(slot_event("session-1", "202612" + std::to_string(monday),
                                         local(2026, 12, monday, 18, 30)));
        made.events.push_back(slot_event("session-2", "202612" + std::to_string(monday + 3),
                                         local(2026, 12, monday + 3, 18, 30)));
    }
    return made;
}

Texts uids_after(const Feed& changed) {
    return values(rewrite(changed, write(season(), {}, first_build), second_build), "UID:");
}

Texts uids_before() {
    return values(write(season(), {}, first_build), "UID:");
}

TEST(Reconcile, moved_within_its_week_with_another_slot) {
    HeldFeed changed = season();
    changed.events[2] = slot_event("session-1", "20261216", local(2026, 12, 16, 18, 30));
    EXPECT_EQ(uids_after(changed), uids_before());
}

TEST(Reconcile, renamed_at_the_same_time) {
    HeldFeed changed = season();
    for (const std::size_t i : {0U, 2U, 4U}) {
        changed.events[i].session = "titled-ebb";
        changed.events[i].id = event_id("titled-ebb", changed.events[i].slot);
    }
    EXPECT_EQ(uids_after(changed), uids_before());
}

TEST(Reconcile, a_plan_that_was_shifted_by_a_week) {
    HeldFeed changed = season();
    for (Event& moved : changed.events) {
        moved.start += std::chrono::weeks{1};
        moved.slot = "shifted-" + moved.slot;
        moved.id = event_id(moved.session, moved.slot);
    }
    const std::string text = rewrite(changed, write(season(), {}, first_build), second_build);
    // Two weeks have the same starts as before; no event is new or lost in any case.
    Texts found = values(text, "UID:");
    std::ranges::sort(found);
    Texts wanted = uids_before();
    std::ranges::sort(wanted);
    EXPECT_EQ(found, wanted);
    EXPECT_TRUE(values(text, "STATUS:CANCELLED").empty());
}

// The feed's events that begin then.
std::ptrdiff_t count_at(const std::string& text, const std::string& start) {
    return std::ranges::count(values(text, "DTSTART;TZID=Europe/Lisbon:"), start);
}

TEST(Reconcile, what_is_over_does_not_move_into_what_is_to_come) {
    HeldFeed shifted = season();
    for (Event& moved : shifted.events) {
        moved.start += std::chrono::weeks{3};
        moved.slot = "shifted-" + moved.slot;
        moved.id = event_id(moved.session, moved.slot);
    }
    // Monday and Thursday of the first week have been held.
    const auto now = utc(2026, 12, 12, 12, 0);
    const std::string text = rewrite(shifted, write(season(), {}, first_build), now);
    EXPECT_EQ(count_at(text, "20261207T183000"), 1);
    EXPECT_EQ(count_at(text, "20261210T183000"), 1);
    const std::size_t first = text.find("UID:" + uids_before()[0]);
    ASSERT_NE(first, std::string::npos);
    EXPECT_TRUE(text.substr(first).contains("SEQUENCE:0\r\nDTSTART;TZID=Europe/Lisbon:20261207"));
}

TEST(Reconcile, a_day_that_is_over_can_be_corrected_within_its_week) {
    HeldFeed changed = season();
    changed.events[0] = slot_event("session-1", "20261208", local(2026, 12, 8, 18, 30));
    const std::string before = write(season(), {}, first_build);
    EXPECT_EQ(values(rewrite(changed, before, utc(2026, 12, 9, 12, 0)), "UID:"), uids_before());
}

TEST(Reconcile, another_name_of_the_feed_keeps_its_uids) {
    HeldFeed changed = season();
    changed.name = "gannet-winter";
    EXPECT_EQ(uids_after(changed), uids_before());
}

TEST(Reconcile, an_id_that_comes_again_after_it_went_gets_a_uid_of_its_own) {
    const std::string first = write(season(), {}, first_build);
    HeldFeed renamed = season();
    renamed.events[0].session = "titled-ebb";
    renamed.events[0].id = event_id("titled-ebb", "x");
    const std::string second = rewrite(renamed, first, second_build);
    HeldFeed both = renamed;
    both.events.push_back(slot_event("session-1", "2026127", local(2027, 1, 4, 18, 30)));
    const Texts found = values(rewrite(both, second, second_build), "UID:");
    ASSERT_EQ(found.size(), 7U);
    EXPECT_EQ(found[0], uids_before()[0]);
    EXPECT_EQ(std::ranges::count(found, found.back()), 1);
}

TEST(Reconcile, what_takes_place_does_not_go_on_a_cancelled_event_of_another_id) {
    HeldFeed without = season();
    without.events.erase(without.events.begin());
    const std::string second = rewrite(without, write(season(), {}, first_build), second_build);
    ASSERT_EQ(values(second, "STATUS:").back(), "CANCELLED");
    HeldFeed with_other = without;
    with_other.events.push_back(slot_event("session-9", "y", local(2026, 12, 7, 18, 30)));
    const std::string third = rewrite(with_other, second, second_build);
    EXPECT_EQ(values(third, "UID:").size(), 7U);
    EXPECT_EQ(values(third, "STATUS:").back(), "CANCELLED");
}

}  // namespace
}  // namespace stave::calendar::testing
