// Training load of a week worked out by hand with the published formulas, and their laws.
//
// The formulas are those of Foster (1998) MSSE 30:1164-1168, as table 2 of the SoccerMon data
// descriptor (2024, Scientific Data) and table 1, "training variables and monitoring equations",
// of a review in BMJ Military Health have them, and of Williams et al. (2017) BJSM 51:209-210.

#include "compiler/loads/training_load.hpp"

#include <gtest/gtest.h>

#include <array>
#include <random>

namespace stave::loads {
namespace {

using Days = std::array<Ratio, week_days>;

// Effort x minutes: 6 x 60, 4 x 45, 7 x 60, none, 8 x 50, 3 x 90, none.
Days example() {
    return {session_load(Ratio(6), 60),
            session_load(Ratio(4), 45),
            session_load(Ratio(7), 60),
            Ratio(0),
            session_load(Ratio(8), 50),
            session_load(Ratio(3), 90),
            Ratio(0)};
}

// Arithmetic by hand, apart from this program: the loads of the days are 360, 180, 420, 0, 400,
// 270 and 0. That the deviation is a sample's is this program's convention: a population's
// would be 165.505, with a monotony of 1.4070 and a strain of 2293.3; without the rest days the
// monotony would be 3.2633.
TEST(TrainingLoad, of_a_week_with_two_days_of_rest) {
    const Days days = example();
    EXPECT_EQ(days[0], Ratio(360));
    EXPECT_EQ(days[5], Ratio(270));
    const WeekLoad week = week_load(days);
    EXPECT_EQ(week.load, Ratio(1630));
    EXPECT_EQ(week.daily_mean, Ratio(1630, 7));
    EXPECT_EQ(to_decimal(week.daily_mean), "232.857");
    EXPECT_EQ(to_decimal(week.deviation), "178.766");
    EXPECT_EQ(to_decimal(*week.monotony, 4), "1.3026");
    EXPECT_EQ(to_decimal(*week.strain, 1), "2123.2");
}

// The table of BMJ Military Health: a mean of 790 and a deviation of 897 give 0.88. Seven days
// that have both: 790 + d and 790 - d three times each and 790, where 6 d^2 / 6 = 897^2.
TEST(TrainingLoad, has_the_published_monotony) {
    const Ratio more(790 + 897);
    const Ratio less(790 - 897);
    const WeekLoad week = week_load(Days{more, less, more, less, Ratio(790), more, less});
    EXPECT_EQ(week.daily_mean, Ratio(790));
    EXPECT_EQ(week.deviation, Ratio(897));
    EXPECT_EQ(to_decimal(*week.monotony, 4), "0.8807");
}

// Twice the load is twice as much every day, and no less varied.
TEST(TrainingLoad, that_is_scaled_keeps_its_monotony) {
    // The engine is the same everywhere, the library's distributions are not.
    std::mt19937_64 engine(20261127);
    const auto pick = [&](std::uint64_t most) {
        return static_cast<std::int64_t>(engine() % most);
    };
    for (int i = 0; i < 500; ++i) {
        Days days;
        for (Ratio& day : days)
            day = Ratio(pick(1000));
        const Ratio scale(pick(9) + 1, pick(4) + 1);
        Days scaled = days;
        for (Ratio& day : scaled)
            day = day * scale;
        const WeekLoad before = week_load(days);
        const WeekLoad after = week_load(scaled);
        EXPECT_EQ(after.load, before.load * scale);
        EXPECT_EQ(after.monotony, before.monotony);
        ASSERT_EQ(after.strain.has_value(), before.strain.has_value());
        if (!after.strain) continue;
        // Half of the last digit of each.
        const Ratio most = (scale + Ratio(1)) / Ratio(20);
        EXPECT_LE(*after.strain - *before.strain * scale, most);
        EXPECT_LE(*before.strain * scale - *after.strain, most);
    }
}

// More than anybody does, and none of it leaves the numbers.
TEST(TrainingLoad, of_a_hostile_size_is_reckoned) {
    const Ratio much = session_load(Ratio(99'999, 10'000), 1'000'000'000);
    EXPECT_EQ(much, Ratio(143'999, 10));
    Days days;
    days.fill(much * Ratio(1000));
    days[0] += Ratio(1, 10);
    const WeekLoad week = week_load(days);
    ASSERT_TRUE(week.strain);
    EXPECT_GT(*week.monotony, Ratio(1'000'000));
}

// A mean divided by nothing is no number.
TEST(TrainingLoad, of_days_that_are_all_alike_has_no_monotony) {
    for (const Ratio day : {Ratio(0), Ratio(300), Ratio(1001, 3)}) {
        const WeekLoad week = week_load(Days{day, day, day, day, day, day, day});
        EXPECT_EQ(week.load, day * Ratio(7));
        EXPECT_EQ(week.deviation, Ratio(0));
        EXPECT_FALSE(week.monotony);
        EXPECT_FALSE(week.strain);
    }
}

// Days 1 to 28: the last seven are 22 to 28, mean 25; all, mean 14.5; the 21 before the last
// seven, mean 11.
TEST(Means, are_of_days_and_hold_the_last_week_or_not) {
    std::vector<Ratio> days;
    for (std::int64_t day = 1; day <= 28; ++day)
        days.emplace_back(day);
    EXPECT_EQ(mean_of_last(days, acute_days), Ratio(25));
    EXPECT_EQ(mean_of_last(days, chronic_days), Ratio(29, 2));
    EXPECT_EQ(mean_of_last(days, chronic_days - acute_days, acute_days), Ratio(11));
    EXPECT_EQ(load_ratio(Ratio(25), Ratio(29, 2)), rounded(Ratio(50, 29), 1'000'000));
    days.pop_back();
    EXPECT_FALSE(mean_of_last(days, chronic_days));
    EXPECT_FALSE(mean_of_last(days, chronic_days - acute_days, acute_days));
    EXPECT_TRUE(mean_of_last(days, acute_days));
    EXPECT_FALSE(load_ratio(Ratio(25), std::nullopt));
    EXPECT_FALSE(load_ratio(Ratio(25), Ratio(0)));
}

// 2 / (7 + 1) = 0.25: 360, then 180 x 0.25 + 360 x 0.75 = 315, then 420 x 0.25 + 315 x 0.75 =
// 341.25, then 255.9375. 2 / (28 + 1) = 0.068966: the second day is 360 - 180 x 2 / 29. That the
// first day's load begins is this program's convention.
TEST(Averages, weigh_the_last_days_more) {
    const Days days = example();
    const auto acute = weighted_averages(days, acute_days);
    ASSERT_EQ(acute.size(), week_days);
    EXPECT_EQ(acute[0], Ratio(360));
    EXPECT_EQ(acute[1], Ratio(315));
    EXPECT_EQ(acute[2], Ratio(1365, 4));
    EXPECT_EQ(to_decimal(acute[3], 4), "255.9375");
    EXPECT_EQ(to_decimal(weighted_averages(days, chronic_days)[1], 4), "347.5862");
    EXPECT_TRUE(weighted_averages({}, acute_days).empty());
}

TEST(Averages, of_days_that_are_all_alike_are_those_days) {
    const std::vector<Ratio> days(100, Ratio(355));
    for (const std::size_t count : {acute_days, chronic_days})
        EXPECT_EQ(weighted_averages(days, count).back(), Ratio(355));
}

}  // namespace
}  // namespace stave::loads
