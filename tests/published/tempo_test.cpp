// Seconds of tempos and of whole exercises, and the loads they move, through the
// whole compiler.
//
// Time under tension is the sum of the phases times the repetitions, over sets,
// rest excluded: Wilk et al. (2018), J Hum Kinet 62, "Does tempo of resistance
// exercise impact training volume?", which also names its tempos in four digits
// (lowering, pause, lifting, pause).

#include <gtest/gtest.h>

#include "tests/published/analysed.hpp"

namespace stave {
namespace {

using stave::testing::only_total;
using stave::testing::timed;

Ratio seconds_of_one_repetition(const std::string& tempo) {
    return timed("session: A\nsets:\nbench press: 1, tempo " + tempo + "\n").work_seconds;
}

TEST(Tempo, regular_medium_and_slow_of_wilk_2018_take_4_8_and_10_seconds) {
    EXPECT_EQ(seconds_of_one_repetition("2-0-2-0"), Ratio(4));
    EXPECT_EQ(seconds_of_one_repetition("5-0-3-0"), Ratio(8));
    EXPECT_EQ(seconds_of_one_repetition("6-0-4-0"), Ratio(10));
}

// The four examples below are arithmetic by hand on the rule of Wilk et al.; that
// the rest after the last set does not count is this program's convention.

TEST(Tempo, four_sets_of_eight_at_3_1_2_0_with_90_s_rest) {
    const auto timeline = timed("session: A\nsets: rest 90 s\nfront squat: 4 x 8, tempo 3-1-2-0\n");
    // 4 x 8 x (3 + 1 + 2 + 0) = 192; 192 + 3 x 90 = 462.
    EXPECT_EQ(timeline.work_seconds, Ratio(192));
    EXPECT_EQ(timeline.total_seconds, Ratio(462));
    EXPECT_EQ(timeline::minutes(timeline), 8);
}

TEST(Tempo, x_counts_one_second_and_is_said_to) {
    const auto timeline = timed("session: A\nsets: rest 90 s\nfront squat: 4 x 8, tempo 3-1-X-0\n");
    // 4 x 8 x (3 + 1 + 1 + 0) = 160; 160 + 270 = 430. That X counts 1 s is this
    // program's convention: the literature says "maximal speed" only.
    EXPECT_EQ(timeline.work_seconds, Ratio(160));
    EXPECT_EQ(timeline.total_seconds, Ratio(430));
    bool said = false;
    for (const auto& assumption : timeline.assumptions)
        said |= assumption.kind == timeline::AssumptionKind::explosive_counts_one_second;
    EXPECT_TRUE(said);
}

TEST(Tempo, eight_on_each_side_takes_twice_the_work) {
    const auto timeline =
        timed("session: A\nsets: rest 90 s\nsplit squat: 4 x 8 each side, tempo 3-1-2-0\n");
    EXPECT_EQ(timeline.work_seconds, Ratio(384));
    EXPECT_EQ(timeline.total_seconds, Ratio(654));
    const auto total = only_total(timeline);
    EXPECT_EQ(total.left, Ratio(32));
    EXPECT_EQ(total.right, Ratio(32));
    EXPECT_EQ(total.both, Ratio(0));
    EXPECT_EQ(total.sets, 4);
}

// Volume load is sets x repetitions x load. The published values are those of
// table 1, "training variables and monitoring equations", of a review in BMJ
// Military Health; the others are arithmetic by hand.

TEST(VolumeLoad, of_a_constant_load_is_the_published_1560_kg) {
    EXPECT_EQ(only_total(timed("session: A\nsets:\nsquat: 3 x 8 @ 65 kg\n")).tonnage_kg,
              Ratio(1560));
}

TEST(VolumeLoad, of_a_progressive_load_is_the_published_1520_kg) {
    // (10 x 55) + (8 x 65) + (6 x 75)
    const auto total = only_total(timed("session: A\nsets:\nsquat: 10-8-6 @ 55-65-75 kg\n"));
    EXPECT_EQ(total.tonnage_kg, Ratio(1520));
    EXPECT_EQ(total.both, Ratio(24));
}

TEST(VolumeLoad, of_falling_repetitions_and_rising_loads_is_3288_kg) {
    // 12 x 84 + 10 x 90 + 8 x 96 + 6 x 102 = 1008 + 900 + 768 + 612
    const auto total =
        only_total(timed("session: A\ncircuit: 4 rounds\nsquat: 12-10-8-6 @ 84-90-96-102 kg\n"));
    EXPECT_EQ(total.tonnage_kg, Ratio(3288));
    EXPECT_EQ(total.both, Ratio(36));
}

TEST(VolumeLoad, adds_kilograms_and_pounds_exactly) {
    const auto total =
        only_total(timed("session: A\nsets:\nsquat: 5 x 1 @ 100 kg\nsquat: 5 x 1 @ 225 lb\n"));
    // 5 x 100 + 5 x 225 x 0.45359237 (NIST SP 811) = 1010.29141625
    EXPECT_EQ(total.tonnage_kg, Ratio(500) + Ratio(1125) * Ratio(45359237, 100000000));
    EXPECT_EQ(to_decimal(total.tonnage_kg, 2), "1010.29");
}

TEST(VolumeLoad, counts_every_implement_and_no_carry) {
    EXPECT_EQ(only_total(timed("session: A\nsets:\nstep-up: 10 @ 2 x 8 kg\n")).tonnage_kg,
              Ratio(160));
    EXPECT_EQ(only_total(timed("session: A\nsets:\nbag carry: 60 steps @ 16 kg\n")).tonnage_kg,
              Ratio(0));
}

}  // namespace
}  // namespace stave
