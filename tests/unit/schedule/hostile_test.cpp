#include <fmt/format.h>

#include "tests/unit/schedule/planned.hpp"

namespace stave {
namespace {

using testing::planned;
using testing::problems;

// Two thousand weeks of a hundred sessions each would fill the memory.
TEST(HostilePlan, OfTooManySessionsIsRefusedBeforeTheyAreMade) {
    std::string text = "session 1: Ebb\npush-up: 3 x 8\nplan P:\nfrom: 1990-01-01\nweeks: 2100\n";
    for (int minute = 0; minute < 60; ++minute)
        text += fmt::format("Monday: 7:{:02}, session 1\n", minute);
    EXPECT_EQ(problems(planned(text)), "plan-too-large");
}

TEST(HostilePlan, OfTooManyLinesIsRefusedOnce) {
    const std::string head =
        "session 1: Ebb\npush-up: 3 x 8\nplan P:\nfrom: 2026-11-30\nweeks: 2\nMonday: 18:30, "
        "session "
        "1\n";
    std::string growths = head;
    for (int i = 0; i < 70; ++i)
        growths += "grow push-up: 1 rep each week\n";
    EXPECT_TRUE(problems(planned(growths)).contains("grow-twice"));
    std::string days_off = head;
    for (int i = 0; i < 3000; ++i)
        days_off += "away: 2026-12-01, leave\n";
    EXPECT_EQ(problems(planned(days_off)), "plan-too-many");
    std::string slots = head;
    for (int i = 0; i < 1000; ++i)
        slots += fmt::format("Tuesday: {}:{:02}, session 1\n", i / 60, i % 60);
    EXPECT_EQ(problems(planned(slots)), "plan-too-many");
}

}  // namespace
}  // namespace stave
