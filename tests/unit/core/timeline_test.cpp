// How blocks and amounts become seconds and sums, from text to timeline. Where no
// source is named the figures are arithmetic by hand on the rules of NOTATION.md,
// section 17.

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "tests/published/analysed.hpp"

namespace stave {
namespace {

using stave::testing::only_total;
using stave::testing::timed;
using timeline::Entry;
using timeline::EntryKind;
using timeline::RestPlace;
using timeline::Side;
using timeline::Timeline;

Timeline of_sets(const std::string& lines) {
    return timed("session: A\nsets: rest 60 s\n" + lines + "\n");
}

Timeline of_circuit(const std::string& format, const std::string& lines) {
    return timed("session: A\ncircuit: " + format + "\n" + lines + "\n");
}

Ratio work_of(const std::string& line) {
    return of_sets(line).work_seconds;
}

bool assumes(const Timeline& timeline, timeline::AssumptionKind kind) {
    return std::ranges::find(timeline.assumptions, kind, &timeline::Assumption::kind) !=
           timeline.assumptions.end();
}

std::vector<Ratio> rests(const Timeline& timeline) {
    std::vector<Ratio> lengths;
    for (const Entry& entry : timeline.entries) {
        if (entry.kind == EntryKind::rest) lengths.push_back(entry.length_seconds);
    }
    return lengths;
}

std::vector<Side> sides(const Timeline& timeline) {
    std::vector<Side> order;
    for (const Entry& entry : timeline.entries) {
        if (entry.kind == EntryKind::work) order.push_back(entry.side);
    }
    return order;
}

TEST(AsManyRounds, take_their_time_and_count_one_round) {
    const auto timeline =
        of_circuit("as many rounds as possible in 8 min", "push-up: 10\nsit-up: 5");
    EXPECT_EQ(timeline.total_seconds, Ratio(480));
    EXPECT_EQ(timeline.work_seconds, Ratio(480));
    ASSERT_EQ(timeline.entries.size(), 3U);
    EXPECT_EQ(timeline.entries.back().kind, EntryKind::more_rounds);
    EXPECT_EQ(timeline.entries.back().length_seconds, Ratio(480 - 30 - 15));
    EXPECT_EQ(timeline.movements[0].both, Ratio(10));
    EXPECT_TRUE(timeline.movements[0].has_open_rounds);
    EXPECT_TRUE(assumes(timeline, timeline::AssumptionKind::one_round_counted));
}

TEST(AsManyRounds, that_do_not_fit_take_one_whole_round) {
    const auto timeline = of_circuit("as many rounds as possible in 20 s", "push-up: 10");
    EXPECT_EQ(timeline.total_seconds, Ratio(30));
    EXPECT_EQ(timeline.entries.size(), 1U);
}

TEST(ForTime, takes_as_long_as_its_work_whatever_its_cap) {
    EXPECT_EQ(of_circuit("for time, cap 1 min, 3 rounds", "push-up: 10\nrow: 100 m in 25 s")
                  .total_seconds,
              Ratio(3L * (30 + 25)));
    EXPECT_EQ(of_circuit("for time", "push-up: 10").total_seconds, Ratio(30));
}

TEST(EveryNext, fills_each_minute_also_the_last) {
    const auto timeline =
        of_circuit("every 1 min next movement, 3 rounds", "swing: 12\npush-up: 8");
    EXPECT_EQ(timeline.total_seconds, Ratio(6L * 60));
    EXPECT_EQ(rests(timeline), (std::vector<Ratio>{24, 36, 24, 36, 24, 36}));
    EXPECT_EQ(timeline.entries[1].rest_place, RestPlace::interval);
}

TEST(EveryNext, runs_on_where_the_work_is_longer) {
    EXPECT_EQ(
        of_circuit("every 30 s next movement, 2 rounds", "swing: 15\npush-up: 5").total_seconds,
        Ratio(2L * (45 + 30)));
}

TEST(EveryAll, fills_what_all_movements_leave_of_the_time) {
    const auto timeline =
        of_circuit("every 2 min all movements, 3 rounds, rest 1 min", "swing: 12\npush-up: 8");
    EXPECT_EQ(timeline.total_seconds, Ratio(3L * 120 + 2L * 60));
    EXPECT_EQ(rests(timeline), (std::vector<Ratio>{60, 60, 60, 60, 60}));
}

TEST(Intervals, work_for_the_time_on_and_drop_the_last_time_off) {
    const auto timeline = of_circuit("40 s on, 20 s off, 3 rounds", "plank:\npush-up: 10");
    EXPECT_EQ(timeline.total_seconds, Ratio(6L * 40 + 5L * 20));
    EXPECT_EQ(timeline.work_seconds, Ratio(6L * 40));
}

TEST(Intervals, rest_between_rounds_in_place_of_the_time_off) {
    EXPECT_EQ(
        of_circuit("40 s on, 20 s off, 2 rounds, rest 2 min", "plank:\nsit-up:").total_seconds,
        Ratio(4L * 40 + 2L * 20 + 120));
}

TEST(Intervals, hold_both_sides_inside_the_time_on) {
    const auto timeline = timed(
        "movement side plank:\nsides: each side\nsession: A\n"
        "circuit: 40 s on, 20 s off, 2 rounds\nside plank:\nstep-up: 8 each leg\n");
    EXPECT_EQ(timeline.total_seconds, Ratio(4L * 40 + 3L * 20));
    EXPECT_EQ(timeline.entries[0].length_seconds, Ratio(20));
    EXPECT_EQ(timeline.entries[1].length_seconds, Ratio(20));
    EXPECT_EQ(timeline.movements[0].left, Ratio(40));
    EXPECT_EQ(timeline.movements[1].left, Ratio(16));
    EXPECT_EQ(timeline.movements[1].work_seconds, Ratio(80));
}

TEST(Intervals, share_the_time_on_among_joined_movements) {
    const auto timeline = of_circuit("40 s on, 20 s off, 1 round", "clean + press: 3 + 3");
    EXPECT_EQ(timeline.total_seconds, Ratio(40));
    EXPECT_EQ(timeline.entries[0].length_seconds, Ratio(20));
}

// With the whole block on one side first, each side has its stations for itself.
TEST(Intervals, give_each_side_the_whole_time_where_the_block_changes_sides) {
    const auto timeline = timed(
        "movement side plank:\nsides: each side\nsession: A\n"
        "circuit: 40 s on, 20 s off, 1 round, whole block left then right\nside plank:\n");
    EXPECT_EQ(timeline.total_seconds, Ratio(80));
    EXPECT_EQ(timeline.movements[0].left, Ratio(40));
    EXPECT_EQ(timeline.movements[0].right, Ratio(40));
}

TEST(WholeBlock, does_all_rounds_left_then_all_right) {
    const auto timeline =
        of_circuit("2 rounds, whole block left then right, rest 30 s, 15 s between sides",
                   "step-up: 8 each leg\nrow: 10 each arm @ 12 kg");
    const std::vector<Side> order{Side::left,  Side::left,  Side::left,  Side::left,
                                  Side::right, Side::right, Side::right, Side::right};
    EXPECT_EQ(sides(timeline), order);
    EXPECT_EQ(rests(timeline), (std::vector<Ratio>{30, 15, 30}));
    EXPECT_EQ(timeline.total_seconds, Ratio(2L * (2 * (24 + 30) + 30) + 15));
    EXPECT_EQ(timeline.movements[1].left, Ratio(20));
    EXPECT_EQ(timeline.movements[1].right, Ratio(20));
    EXPECT_EQ(timeline.movements[1].sets, 2);
    EXPECT_EQ(timeline.movements[1].volume.kilograms.all(), Ratio(40L * 12));
}

TEST(WholeBlock, does_what_has_no_side_both_times) {
    const auto timeline =
        of_circuit("1 round, whole block right then left", "step-up: 8 each leg\nplank: 20 s");
    const std::vector<Side> order{Side::right, Side::both, Side::left, Side::both};
    EXPECT_EQ(sides(timeline), order);
    EXPECT_EQ(timeline.movements[1].both, Ratio(40));
    EXPECT_EQ(timeline.movements[0].sets, 1);
    EXPECT_EQ(timeline.movements[1].sets, 2);
    EXPECT_EQ(timeline.sets, 3);
}

TEST(WholeBlock, does_what_is_for_one_side_on_that_side) {
    const auto timeline = of_circuit("2 rounds, whole block left then right",
                                     "row: 8 each arm\nside bend: 8 left\nside bend: 6 right");
    const std::vector<Side> order{Side::left,  Side::left,  Side::left,  Side::left,
                                  Side::right, Side::right, Side::right, Side::right};
    EXPECT_EQ(sides(timeline), order);
    EXPECT_EQ(timeline.movements[1].left, Ratio(16));
    EXPECT_EQ(timeline.movements[1].right, Ratio(12));
}

TEST(Clusters, count_the_short_rests_inside) {
    EXPECT_EQ(work_of("press: (2 + 2 + 2, rest 15 s)"), Ratio(6L * 3));
    const auto timeline = of_sets("press: 3 x (3 x 2, rest 20 s) @ 40 kg");
    EXPECT_EQ(timeline.work_seconds, Ratio(3L * 6 * 3));
    EXPECT_EQ(timeline.total_seconds, Ratio(3L * (6 * 3 + 2 * 20) + 2L * 60));
    EXPECT_EQ(only_total(timeline).both, Ratio(18));
    EXPECT_EQ(only_total(timeline).volume.kilograms.all(), Ratio(18L * 40));
}

TEST(Clusters, of_times_share_the_unit_that_stands_last) {
    EXPECT_EQ(of_sets("plank: (20 + 10 s, rest 5 s)").total_seconds, Ratio(35));
}

TEST(Clusters, that_end_in_max_count_what_comes_before) {
    const auto timeline = of_sets("deadlift: 2 x (3 + 2 + max, rest 20 s) @ 80 kg");
    EXPECT_EQ(only_total(timeline).both, Ratio(10));
    EXPECT_EQ(only_total(timeline).open_sets, 2);
    EXPECT_EQ(only_total(timeline).volume.kilograms.all(), Ratio(800));
    // Five repetitions of 3 s, half a minute of max, two rests of 20 s; a rest between.
    EXPECT_EQ(timeline.total_seconds, Ratio(2L * (15 + 30 + 40) + 60));
}

TEST(Ladders, climb_whole_in_every_set_without_a_rest) {
    EXPECT_EQ(work_of("push-up: ladder 1..3..1"), Ratio(9L * 3));
    const auto timeline = of_circuit("3 rounds, rest 60 s", "push-up: ladder 1..4");
    EXPECT_EQ(only_total(timeline).both, Ratio(30));
    EXPECT_EQ(only_total(timeline).sets, 3);
}

TEST(OpenLadders, climb_from_round_to_round) {
    EXPECT_EQ(only_total(of_circuit("4 rounds, rest 60 s", "push-up: 2 up by 2")).both, Ratio(20));
}

TEST(OpenLadders, count_their_first_rung_against_the_clock) {
    const auto timeline = of_circuit("as many rounds as possible in 6 min", "push-up: 2 up by 2");
    EXPECT_EQ(only_total(timeline).both, Ratio(2));
    EXPECT_TRUE(only_total(timeline).is_least);
    EXPECT_TRUE(assumes(timeline, timeline::AssumptionKind::open_ladder_counts_first));
}

TEST(Waves, step_the_load_from_wave_to_wave) {
    const auto timeline = of_sets("squat: 2 waves of 5-3 @ 60 then 70 kg, each wave 5 kg up");
    EXPECT_EQ(only_total(timeline).volume.kilograms.all(),
              Ratio(5L * 60 + 3L * 70 + 5L * 65 + 3L * 75));
}

TEST(TimeToReach, is_the_time_of_the_set) {
    EXPECT_EQ(work_of("run: 3 x 400 m in 88 s"), Ratio(3L * 88));
    EXPECT_EQ(work_of("row: max m in 4 min"), Ratio(240));
}

// 2:10 for 500 m is 0.26 s for a metre, so 200 m are 52 s.
TEST(Paces, give_a_distance_its_seconds) {
    EXPECT_EQ(work_of("row: 200 m @ 2:10 per 500 m"), Ratio(52));
    EXPECT_EQ(work_of("run: 1 km @ 5:00 per km"), Ratio(300));
    EXPECT_EQ(work_of("run: 1000 m @ 12 km per h"), Ratio(300));
    EXPECT_EQ(work_of("row: 60 strokes @ 20 strokes per min"), Ratio(180));
    EXPECT_EQ(work_of("ride: 15 kcal @ 10 kcal per min"), Ratio(90));
}

TEST(Paces, count_their_slower_end) {
    EXPECT_EQ(work_of("run: 1 km @ 5:00 to 6:00 per km"), Ratio(360));
    EXPECT_EQ(work_of("run: 1 km @ 10 to 12 km per h"), Ratio(360));
}

TEST(Paces, that_measure_something_else_say_nothing_of_the_length) {
    EXPECT_EQ(work_of("row: 4 min @ 20 strokes per min"), Ratio(240));
    EXPECT_EQ(work_of("row: 250 m @ 20 strokes per min"), Ratio(100));
}

TEST(Rests, last_as_long_as_the_work_before_them) {
    const auto timeline = of_sets("run: 3 x 400 m in 88 s, rest as long as the work");
    EXPECT_EQ(rests(timeline), (std::vector<Ratio>{88, 88}));
}

// 120 m at 1.2 m/s are 100 s.
TEST(Rests, last_as_long_as_the_walk_back) {
    const auto timeline = of_sets("run: 2 x 120 m in 20 s, rest walk back");
    EXPECT_EQ(rests(timeline), (std::vector<Ratio>{100}));
    EXPECT_TRUE(assumes(timeline, timeline::AssumptionKind::walk_back_pace));
}

// 200 m at 2.5 m/s are 80 s, 120 m at 1.2 m/s are 100 s; of a range the upper end counts.
TEST(Rests, by_distance_last_as_long_as_a_jog_or_a_walk) {
    const auto jog = of_sets("run: 2 x 400 m in 96 s, rest 200 m easy jog");
    EXPECT_EQ(rests(jog), (std::vector<Ratio>{80}));
    EXPECT_TRUE(assumes(jog, timeline::AssumptionKind::default_travel_speed));
    const auto walk = of_sets("run: 2 x 400 m in 96 s, rest 100 to 120 m walk");
    EXPECT_EQ(rests(walk), (std::vector<Ratio>{100}));
    EXPECT_TRUE(assumes(walk, timeline::AssumptionKind::default_carry_speed));
}

TEST(Rests, as_needed_count_what_is_usual_or_a_minute) {
    EXPECT_EQ(rests(of_sets("press: 2 x 5, rest as needed, about 50 s")), (std::vector<Ratio>{50}));
    const auto timeline = of_sets("press: 2 x 5, rest as needed");
    EXPECT_EQ(rests(timeline), (std::vector<Ratio>{60}));
    EXPECT_EQ(timeline.total_seconds, Ratio(90));
    EXPECT_TRUE(assumes(timeline, timeline::AssumptionKind::rest_as_needed));
}

TEST(Directions, multiply_repetitions) {
    const auto timeline = timed(
        "movement clock lunge:\ndirections: 5\nsides: each leg\nsession: A\n"
        "clock lunge: 2 each leg\n");
    EXPECT_EQ(only_total(timeline).left, Ratio(10));
    EXPECT_EQ(only_total(timeline).right, Ratio(10));
    EXPECT_EQ(timeline.work_seconds, Ratio(60));
    EXPECT_TRUE(assumes(timeline, timeline::AssumptionKind::several_directions));
}

TEST(Sides, of_a_shuttle_double_the_distance) {
    const auto timeline = of_sets("shuttle: 2 x 20 m there and back");
    EXPECT_EQ(only_total(timeline).both, Ratio(80));
    EXPECT_EQ(only_total(timeline).sets, 2);
    // 80 m at 2.5 m/s, and one rest.
    EXPECT_EQ(timeline.total_seconds, Ratio(32 + 60));
}

TEST(Sides, that_are_swapped_double_the_amount) {
    const auto timeline = of_sets("mixed carry: 12 m @ 4 kg overhead and 16 kg low, then swapped");
    EXPECT_EQ(only_total(timeline).both, Ratio(24));
    EXPECT_EQ(timeline.work_seconds, Ratio(20));
}

TEST(Sides, that_alternate_begin_with_the_one_that_is_said) {
    const auto timeline = of_sets("split squat: 9 alternating, right first");
    EXPECT_EQ(only_total(timeline).left, Ratio(4));
    EXPECT_EQ(only_total(timeline).right, Ratio(5));
}

TEST(Sides, share_the_time_of_a_station) {
    const auto timeline = of_circuit("40 s on, 20 s off, 2 rounds",
                                     "mixed carry: @ 8 kg left and 12 kg right, then swapped");
    EXPECT_EQ(only_total(timeline).both, Ratio(80));
    EXPECT_EQ(timeline.total_seconds, Ratio(40 + 20 + 40));
}

TEST(Joined, movements_share_a_time) {
    const auto within = of_sets("clean + press: 3 x (2 + 2) in 30 s @ 20 kg");
    EXPECT_EQ(within.total_seconds, Ratio(3L * 30 + 2L * 60));
    const auto station = of_circuit("40 s on, 20 s off, 1 round", "inchworm + shoulder tap:");
    ASSERT_EQ(station.movements.size(), 2U);
    EXPECT_EQ(station.movements[0].both, Ratio(20));
    EXPECT_EQ(station.movements[1].both, Ratio(20));
}

TEST(Totals, know_a_movement_by_every_spelling_and_a_length_in_every_unit) {
    EXPECT_EQ(only_total(of_sets("Push-up: 2 x 8\npush-up: 2 x 8")).both, Ratio(32));
    EXPECT_EQ(only_total(of_sets("run: 10 km\nrun: 400 m")).both, Ratio(104, 10));
    // Counts of two kinds do not add up.
    EXPECT_EQ(of_sets("lunge: 20 steps\nlunge: 10").movements.size(), 2U);
}

TEST(Totals, of_a_load_that_changes_unsaid_are_an_assumption) {
    const auto timeline = of_sets("squat: 12-10-8 @ 20 kg, load rises");
    EXPECT_TRUE(assumes(timeline, timeline::AssumptionKind::one_load_counted));
}

TEST(Paces, of_a_mile_are_exact) {
    EXPECT_EQ(work_of("run: 3 miles @ 8:00 per mile"), Ratio(24L * 60));
}

TEST(Rests, as_long_as_the_work_follow_the_whole_set) {
    const auto sides_of_a_set =
        of_sets("single-arm row: 2 x 10 each arm @ 12 kg, rest as long as the work");
    EXPECT_EQ(rests(sides_of_a_set), std::vector<Ratio>{Ratio(60)});
    const auto rounds =
        of_circuit("2 rounds, rest as long as the work", "run: 400 m in 80 s\npush-up: 2");
    EXPECT_EQ(rests(rounds), std::vector<Ratio>{Ratio(86)});
}

TEST(RestsBetweenBlocks, come_behind_every_block_but_the_last) {
    const auto timeline = timed(
        "session: A\nrest: 2 min between blocks\n"
        "circuit: 2 rounds, rest 30 s\n  plank: 20 s\n"
        "sets: rest 60 s\n  plank: 2 x 20 s\n  rest: 90 s\n"
        "sets: rest 10 s between blocks\n  plank: 20 s\n");
    const std::vector<Ratio> expected{Ratio(30), Ratio(120), Ratio(60), Ratio(90)};
    EXPECT_EQ(rests(timeline), expected);
    EXPECT_EQ(timeline.blocks[1].start_seconds, Ratio(20 + 30 + 20 + 120));
    EXPECT_EQ(timeline.blocks[0].length_seconds, Ratio(20 + 30 + 20));
}

TEST(RestLines, are_minutes_of_their_own_where_the_clock_gives_the_rests) {
    const auto every =
        of_circuit("every 1 min next movement, 3 rounds", "swing: 15\n  rest: 1 min\npush-up: 10");
    EXPECT_EQ(every.total_seconds, Ratio(9L * 60));
    const auto stations =
        of_circuit("40 s on, 20 s off, 2 rounds", "squat:\n  rest: 1 min\npush-up:");
    EXPECT_EQ(stations.total_seconds, Ratio(2L * (60 + 60 + 60) - 20));
}

TEST(Sides, begin_where_it_is_said) {
    const std::vector<Side> right{Side::right, Side::left};
    EXPECT_EQ(sides(of_sets("lunge: 5 each leg, right first")), right);
    const std::vector<Side> left{Side::left, Side::right};
    EXPECT_EQ(sides(of_sets("lunge: 5 each leg, left first")), left);
}

TEST(Sides, of_hands_that_change_within_the_amount_leave_it) {
    EXPECT_EQ(only_total(of_sets("bag carry: 60 m @ 20 kg, swap hands every 20 m")).both,
              Ratio(60));
}

TEST(OpenAmounts, count_what_is_said_of_them) {
    EXPECT_EQ(work_of("broad jump: best of 3"), Ratio(30));
    // Four sets of 3 at 3 s, and three rests of 2 min.
    EXPECT_EQ(work_of("squat: build to 3"), Ratio(4L * 9));
    EXPECT_EQ(of_sets("squat: build to 3").total_seconds, Ratio(4L * 9 + 3L * 120));
    EXPECT_EQ(work_of("chin-up: 5 or more"), Ratio(15));
    EXPECT_EQ(work_of("push-up: 30 total"), Ratio(90));
    EXPECT_EQ(work_of("ride: 15 kcal"), Ratio(90));
    EXPECT_EQ(only_total(of_sets("chin-up: 5 or more")).both, Ratio(5));
    EXPECT_TRUE(only_total(of_sets("chin-up: 5 or more")).is_least);
    EXPECT_EQ(only_total(of_sets("push-up: 30 total")).both, Ratio(30));
}

TEST(Repetitions, take_what_their_details_say) {
    EXPECT_EQ(work_of("pull-up: 3, lower 5 s only"), Ratio(15));
    EXPECT_EQ(work_of("pelvic tilt: 6, breath in 4 s, out 6 s"), Ratio(60));
    EXPECT_EQ(work_of("bridge: 10, hold 2 s at the top"), Ratio(50));
    EXPECT_EQ(work_of("good morning: 8, pause 1 s below the knee"), Ratio(32));
    EXPECT_EQ(work_of("squat: 5, tempo 3-1-2-0, pause 1 s"), Ratio(35));
}

}  // namespace
}  // namespace stave
