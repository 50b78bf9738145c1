#include <set>

#include "tests/unit/schedule/planned.hpp"

namespace stave {
namespace {

using schedule::Standing;
using testing::date_of;
using testing::held;
using testing::planned;
using testing::problems;

const std::string sessions = "session 1: Ebb\npush-up: 3 x 8\nsession 2: Flood\npush-up: 3 x 10\n";

// Weekdays of the proleptic Gregorian calendar as ISO 8601 counts them; 2026-11-30 is a
// Monday by any wall calendar.
TEST(PlanDays, FallOnTheirWeekdaysOfEveryWeek) {
    const auto snapshot =
        planned(sessions +
                "plan P:\nfrom: 2026-11-30\nweeks: 3\nThursday: 18:30, session 1\nMonday: "
                "7:00, session 2\n");
    ASSERT_EQ(problems(snapshot), "");
    std::string days;
    for (const auto& day : snapshot.season)
        days += date_of(day) + ' ';
    EXPECT_EQ(days, "2026-11-30 2026-12-03 2026-12-07 2026-12-10 2026-12-14 2026-12-17 ");
}

// A week is seven days from the plan's first day, whatever weekday that is.
TEST(PlanDays, CountWeeksFromTheFirstDay) {
    const auto snapshot =
        planned(sessions + "plan P:\nfrom: 2026-12-02\nweeks: 2\nMonday: 18:30, session 1\n");
    ASSERT_EQ(snapshot.season.size(), 2U);
    EXPECT_EQ(date_of(snapshot.season[0]), "2026-12-07");
    EXPECT_EQ(snapshot.season[0].week, 1);
    EXPECT_EQ(snapshot.season[1].week, 2);
}

TEST(PlanDays, TakeSessionsInTurnAWeekEach) {
    const auto snapshot =
        planned(sessions +
                "plan P:\nfrom: 2026-11-30\nweeks: 3\nMonday: 18:30, session 1 then session 2\n");
    ASSERT_EQ(snapshot.season.size(), 3U);
    EXPECT_EQ(held(snapshot, 0).title, "Ebb");
    EXPECT_EQ(held(snapshot, 1).title, "Flood");
    EXPECT_EQ(held(snapshot, 2).title, "Ebb");
}

TEST(PlanDays, AreMovedCancelledAndLeftOut) {
    const auto snapshot = planned(
        sessions +
        "plan P:\nfrom: 2026-11-30\nweeks: 4\nMonday: 18:30, session 1\nmoved: 2026-11-30 to "
        "2026-12-01 19:00, ice\ncancelled: 2026-12-07, gale\naway: 2026-12-14 to 2026-12-20, "
        "leave\n");
    ASSERT_EQ(problems(snapshot), "");
    ASSERT_EQ(snapshot.season.size(), 4U);
    EXPECT_EQ(snapshot.season[0].standing, Standing::moved);
    EXPECT_EQ(date_of(snapshot.season[0]), "2026-12-01");
    EXPECT_EQ(snapshot.season[0].clock, std::chrono::hours{19});
    EXPECT_EQ(reason_of(snapshot.program, snapshot.season[0]), "ice");
    EXPECT_EQ(held(snapshot, 0).day, "20261130");
    EXPECT_EQ(snapshot.season[1].standing, Standing::cancelled);
    EXPECT_EQ(snapshot.season[2].standing, Standing::away);
    EXPECT_EQ(snapshot.season[3].standing, Standing::held);
}

TEST(PlanDays, KnowEachOfSeveralSessionsByItsTime) {
    const auto snapshot = planned(
        sessions +
        "plan P:\nfrom: 2026-11-30\nweeks: 1\nMonday: 7:00, session 1\nMonday: 18:30, session "
        "1\nTuesday: 18:30, session 1, group A\nTuesday: 18:30, session 1, group B\n");
    std::set<std::string> keys;
    for (std::size_t i = 0; i < snapshot.season.size(); ++i)
        keys.insert(held(snapshot, i).day);
    EXPECT_EQ(keys, (std::set<std::string>{"20261130-0700", "20261130-1830", "20261201-a",
                                           "20261201-b"}));
}

// "A" and "a" come to the same in identities.
TEST(PlanDays, KnowSessionsOfGroupsThatDifferByTheirCaseByTheirTimes) {
    const auto snapshot =
        planned(sessions +
                "plan P:\nfrom: 2026-11-30\nweeks: 1\nTuesday: 18:30, session 1, group A\n"
                "Tuesday: 19:30, session 1, group a\n");
    ASSERT_EQ(problems(snapshot), "");
    std::set<std::string> keys;
    for (std::size_t i = 0; i < snapshot.season.size(); ++i)
        keys.insert(held(snapshot, i).day);
    EXPECT_EQ(keys, (std::set<std::string>{"20261201-a-1830", "20261201-a-1930"}));
}

// Waves: 0-1-2, then 1-2-3. A wave that begins again in the last week is not idle.
TEST(PlanDays, HaveWavesThatAreIdleUntilOneBeginsAgain) {
    const auto waves = [](const std::string& weeks, const std::string& more) {
        return problems(
            planned("session 1: Ebb\npush-up: 3 x 20\nplan P:\nfrom: 2026-11-30\n"
                    "weeks: " +
                    weeks + "\nMonday: 18:30, session 1\n" + more +
                    "waves: 3 weeks, each wave 1 step up\n"));
    };
    const std::string grow = "grow push-up: 1 rep each week\n";
    EXPECT_EQ(waves("6", ""), "waves-idle");
    EXPECT_EQ(waves("3", grow), "waves-idle");
    EXPECT_EQ(waves("4", grow), "");
    EXPECT_EQ(waves("4", grow + "lighter: week 4 by 40 %\n"), "waves-idle");
    EXPECT_EQ(waves("5", grow + "lighter: week 4 by 40 %\n"), "");
}

// A move within a day off, to another day off, and past days off of other sessions.
TEST(PlanDays, AskAboutMovesThatMeetDaysOff) {
    const auto moves = [](const std::string& lines) {
        return problems(planned(sessions +
                                "plan P:\nfrom: 2026-11-30\nweeks: 4\nMonday: 18:30, session 1\n"
                                "Monday: 7:00, session 2\n" +
                                lines));
    };
    EXPECT_EQ(moves("moved: 2026-12-07 18:30 to 2026-12-08\n"), "");
    EXPECT_EQ(moves("away: 2026-12-07 to 2026-12-08\nmoved: 2026-12-07 to 2026-12-09\n"),
              "moved-away");
    EXPECT_EQ(moves("away: 2026-12-07 to 2026-12-08\nmoved: 2026-12-07 to 2026-12-08\n"),
              "moved-away");
    EXPECT_EQ(moves("cancelled: 2026-12-14 18:30\nmoved: 2026-12-07 7:00 to 2026-12-14 9:00\n"),
              "");
    EXPECT_EQ(moves("cancelled: 2026-12-14 18:30\nmoved: 2026-12-07 18:30 to 2026-12-14 18:30\n"),
              "moved-away");
    EXPECT_EQ(moves("moved: 2026-12-21 to 2026-12-28\n"), "moved-outside");
    EXPECT_EQ(moves("moved: 2026-12-21 to 2026-12-27\n"), "");
}

// tzdata: Portugal keeps WET, UTC, in winter and WEST, UTC+1, from the last Sunday in March.
TEST(PlanDays, KeepTheirHourOverAChangeOfTheClocks) {
    const auto snapshot = planned(
        sessions +
        "plan P:\nfrom: 2027-03-22\nweeks: 2\nzone: Europe/Lisbon\nMonday: 18:30, session 1\n");
    ASSERT_EQ(snapshot.season.size(), 2U);
    const auto apart = *snapshot.season[1].instant - *snapshot.season[0].instant;
    EXPECT_EQ(apart, std::chrono::hours{7 * 24 - 1});
}

}  // namespace
}  // namespace stave
