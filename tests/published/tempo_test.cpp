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

// That the pause above counts after the last repetition too is this program's convention.
TEST(Tempo, counts_all_four_phases_in_every_repetition) {
    EXPECT_EQ(timed("session: A\nsets:\nfront squat: 1 x 8, tempo 3-1-2-2\n").work_seconds,
              Ratio(64));
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
    EXPECT_EQ(only_total(timed("session: A\nsets:\nsquat: 3 x 8 @ 65 kg\n")).volume.kilograms.all(),
              Ratio(1560));
}

TEST(VolumeLoad, of_a_progressive_load_is_the_published_1520_kg) {
    // (10 x 55) + (8 x 65) + (6 x 75)
    const auto total = only_total(timed("session: A\nsets:\nsquat: 10-8-6 @ 55-65-75 kg\n"));
    EXPECT_EQ(total.volume.kilograms.all(), Ratio(1520));
    EXPECT_EQ(total.both, Ratio(24));
}

TEST(VolumeLoad, of_falling_repetitions_and_rising_loads_is_3288_kg) {
    // 12 x 84 + 10 x 90 + 8 x 96 + 6 x 102 = 1008 + 900 + 768 + 612
    const auto total =
        only_total(timed("session: A\ncircuit: 4 rounds\nsquat: 12-10-8-6 @ 84-90-96-102 kg\n"));
    EXPECT_EQ(total.volume.kilograms.all(), Ratio(3288));
    EXPECT_EQ(total.both, Ratio(36));
}

TEST(VolumeLoad, adds_kilograms_and_pounds_exactly) {
    const auto total =
        only_total(timed("session: A\nsets:\nsquat: 5 x 1 @ 100 kg\nsquat: 5 x 1 @ 225 lb\n"));
    // 5 x 100 + 5 x 225 x 0.45359237 (NIST SP 811) = 1010.29141625
    EXPECT_EQ(total.volume.kilograms.all(), Ratio(500) + Ratio(1125) * Ratio(45359237, 100000000));
    EXPECT_EQ(to_decimal(total.volume.kilograms.all(), 2), "1010.29");
}

// Of the same table: 1520 / 24 = 63.33, which it prints as 63; 1560 kg in 45 min are 34.67, which
// it prints as 34.7, and 1520 are 33.78. 63.33 are 57.58 % of its 110 kg; it prints 57.
TEST(VolumeLoad, has_the_published_mean_and_density) {
    const auto rising = timed("session: A\nsets:\nsquat: 10-8-6 @ 55-65-75 kg\n");
    const auto even = timed("session: A\nsets:\nsquat: 3 x 8 @ 65 kg\n");
    const Ratio mean = *mean_load(volume_load(rising));
    EXPECT_EQ(to_decimal(mean, 2), "63.33");
    EXPECT_EQ(to_decimal(mean * Ratio(100, 110), 2), "57.58");
    EXPECT_EQ(to_decimal(density(volume_load(even), 45), 2), "34.67");
    EXPECT_EQ(to_decimal(density(volume_load(rising), 45), 2), "33.78");
    EXPECT_FALSE(timeline::mean_load({}));
}

// 12 x 85 + 10 x 90 + 8 x 95 + 6 x 102.5 = 1020 + 900 + 760 + 615: the loads above as plates make
// them.
TEST(VolumeLoad, of_loads_that_can_be_made_is_3295_kg) {
    const auto timeline =
        timed("session: A\ncircuit: 4 rounds\nsquat: 12-10-8-6 @ 85-90-95-102.5 kg\n");
    EXPECT_EQ(volume_load(timeline).kilograms.all(), Ratio(3295));
}

// Ours, since no source settles it: 8 on each side are 16 repetitions.
TEST(VolumeLoad, of_each_side_is_told_by_side_and_summed) {
    const auto volume =
        volume_load(timed("session: A\nsets:\nsplit squat: 3 x 8 each leg @ 20 kg\n"));
    EXPECT_EQ(volume.kilograms.left, Ratio(480));
    EXPECT_EQ(volume.kilograms.right, Ratio(480));
    EXPECT_EQ(volume.kilograms.both, Ratio(0));
    EXPECT_EQ(volume.reps, Ratio(48));
}

// Ours too: the body is no load, what hangs from it is, and help takes nothing away.
TEST(VolumeLoad, holds_no_body_weight) {
    const auto kilograms = [](const std::string& load) {
        const std::string text = "session: A\nsets:\npull-up: 3 x 5" + load + "\n";
        return volume_load(timed(text)).kilograms.all();
    };
    EXPECT_EQ(kilograms(""), Ratio(0));
    EXPECT_EQ(kilograms(" @ bodyweight"), Ratio(0));
    EXPECT_EQ(kilograms(" @ bodyweight plus 10 kg"), Ratio(150));
    EXPECT_EQ(kilograms(" @ bodyweight minus 10 kg"), Ratio(0));
    EXPECT_EQ(kilograms(" @ 10 kg"), Ratio(150));
}

TEST(VolumeLoad, stays_in_the_units_of_its_loads) {
    const auto volume =
        volume_load(timed("session: A\nsets:\nsquat: 5 @ 100 kg\npress: 5 @ 45 lb\n"));
    const std::vector<Quantity> wanted{{Ratio(500), Unit::kilogram}, {Ratio(225), Unit::pound}};
    EXPECT_EQ(volume.as_written, wanted);
}

// 1 mile is 1609.344 m (NIST SP 811), so a mile an hour is 26.8224 m a minute, and not the 26.8 of
// teaching.
TEST(Speed, in_miles_is_exact) {
    EXPECT_EQ(timed("session: A\nsets:\nwalk: 26.8224 m @ 1 mile per h\n").work_seconds, Ratio(60));
    EXPECT_FALSE(find_unit("mph"));
}

TEST(VolumeLoad, counts_every_implement_and_no_carry) {
    EXPECT_EQ(
        only_total(timed("session: A\nsets:\nstep-up: 10 @ 2 x 8 kg\n")).volume.kilograms.all(),
        Ratio(160));
    EXPECT_EQ(only_total(timed("session: A\nsets:\nbag carry: 60 steps @ 16 kg\n"))
                  .volume.kilograms.all(),
              Ratio(0));
}

}  // namespace
}  // namespace stave
