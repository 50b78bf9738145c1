// Loads as somebody can make them, from the lines of the notation.

#include "tests/unit/fit/fitting.hpp"

namespace stave {
namespace {

using testing::fitted;
using testing::loads_of;
using testing::Person;
using testing::plates_of;
using testing::session;

// Bar 20 kg and two of each plate.
const std::string gym = "  kit: barbell 20 kg, 2 plates 25 20 15 10 5 2.5 1.25 kg, rack, bench\n";

std::string lifter(const std::string& lines) {
    return "athlete Mara:\n" + lines + "\n";
}

const std::string of_120 = "  test deadlift: 1 @ 120 kg on 2026-11-02\n";

// NSCA Training Load Chart: 70, 75, 80 and 85 % at 12, 10, 8 and 6 reps. Of 120 kg these are 84,
// 90, 96 and 102 kg; the nearest that the plates make, and their sides, by arithmetic.
TEST(FitLoads, rise_as_repetitions_fall) {
    const std::string lines = session("deadlift: 12-10-8-6, load rises\n");
    const Person person = fitted(lifter(gym + of_120) + lines);
    // From the max each set goes to its end, which is said.
    EXPECT_EQ(person.problems, "rises-to-end");
    EXPECT_EQ(loads_of(person), "85 kg, 90 kg, 95 kg, 102.5 kg");
    EXPECT_EQ(plates_of(person), "25+5+2.5 | 25+10 | 25+10+2.5 | 25+15+1.25");
    ASSERT_EQ(person.workings.size(), 4U);
    const Ratio exact[] = {Ratio(84), Ratio(90), Ratio(96), Ratio(102)};
    for (std::size_t set = 0; set < 4; ++set) {
        EXPECT_EQ(person.workings[set].target, exact[set]);
        EXPECT_EQ(person.workings[set].basis, fit::Basis::rising);
        EXPECT_EQ(person.workings[set].shares, program::Estimate::chart);
        EXPECT_EQ(person.workings[set].set, set);
    }
    ASSERT_TRUE(person.session.methods);
    // A single needs no equation; the chart gave the shares.
    EXPECT_EQ(person.session.methods->estimates, std::vector{program::Estimate::chart});
    EXPECT_TRUE(person.session.methods->has_rounded);
    EXPECT_FALSE(person.session.methods->by_steps);

    // Rounded down the same are 82.5, 90, 95 and 100; up 85, 90, 97.5 and 102.5.
    EXPECT_EQ(loads_of(fitted(lifter(gym + of_120 + "  rounding: down\n") + lines)),
              "82.5 kg, 90 kg, 95 kg, 100 kg");
    EXPECT_EQ(loads_of(fitted(lifter(gym + of_120 + "  rounding: up\n") + lines)),
              "85 kg, 90 kg, 97.5 kg, 102.5 kg");
}

// The same in four rounds.
TEST(FitLoads, rise_from_round_to_round) {
    const Person person = fitted(lifter(gym + of_120) +
                                 "session 1: Slipway\nwhen: 2026-12-01 18:00\ncircuit: 4 rounds\n"
                                 "  deadlift: 12-10-8-6, load rises\n");
    EXPECT_EQ(loads_of(person), "85 kg, 90 kg, 95 kg, 102.5 kg");
}

// 12 -> 10 reps is +8 % by Brzycki, 27/25; 84 -> 90.72 kg. Worked by hand from his formula.
TEST(FitLoads, rise_by_the_equation_that_is_asked_for) {
    const Person person = fitted(lifter(of_120 + "  estimate by: Brzycki\n") +
                                 session("deadlift: 12-10 @ 84 kg, load rises\n"));
    ASSERT_EQ(person.workings.size(), 1U);
    EXPECT_EQ(to_decimal(person.workings[0].target, 2), "90.72");
}

// 0.80 x 97.5 = 78 kg, 77.5 is nearer than 80: with a step of 2.5 kg, where no kit is known.
TEST(FitLoads, of_a_share_go_to_steps_without_a_kit) {
    const std::string tests = "  test deadlift: 1 @ 97.5 kg on 2026-11-02\n";
    const Person person = fitted(lifter(tests) + session("deadlift: 3 x 5 @ 80 %\n"));
    EXPECT_EQ(loads_of(person), "77.5 kg");
    EXPECT_EQ(plates_of(person), "none");
    ASSERT_TRUE(person.session.methods);
    EXPECT_TRUE(person.session.methods->by_steps);
    EXPECT_EQ(
        loads_of(fitted(lifter(tests + "  rounding: up\n") + session("deadlift: 3 x 5 @ 80 %\n"))),
        "80 kg");
    // Between: 60 to 70 % are 58.5 and 68.25 kg.
    EXPECT_EQ(loads_of(fitted(lifter(tests) + session("deadlift: 3 x 5 @ 60 to 70 %\n"))),
              "57.5-67.5 kg");
}

// Elementary: rounded down is no more, up no less, and the nearest lies within half a step, here
// of the 2.5 kg that loads go to where no kit is known.
TEST(FitLoads, are_rounded_by_half_a_step_at_most) {
    const Ratio step(5, 2);
    for (int percent = 30; percent <= 100; percent += 7) {
        const std::string lines = session("deadlift: 1 @ " + std::to_string(percent) + " %\n");
        const auto load = [&](const std::string& rounding) {
            const Person person = fitted(lifter(of_120 + rounding) + lines);
            return testing::item(person).loads.at(0).terms.at(0).high.value;
        };
        const Ratio exact = Ratio(120 * percent, 100);
        const Ratio nearest = load("");
        const Ratio off = nearest < exact ? exact - nearest : nearest - exact;
        EXPECT_LE(off + off, step) << percent;
        EXPECT_TRUE((nearest / step).is_whole()) << percent;
        EXPECT_LE(load("  rounding: down\n"), nearest) << percent;
        EXPECT_LE(load("  rounding: down\n"), exact) << percent;
        EXPECT_GE(load("  rounding: up\n"), nearest) << percent;
        EXPECT_GE(load("  rounding: up\n"), exact) << percent;
    }
}

// Elementary: a bar of 20 kg and the printed plates on both of its sides are the printed load.
TEST(FitLoads, are_the_bar_and_its_plates_on_both_sides) {
    const Person person =
        fitted(lifter(gym + of_120) + session("deadlift: 12-10-8-6, load rises\n"));
    const program::Item& item = testing::item(person);
    const auto* plates = item.find<program::Plates>();
    ASSERT_NE(plates, nullptr);
    ASSERT_EQ(plates->loads.size(), item.loads.size());
    for (std::size_t set = 0; set < item.loads.size(); ++set) {
        Ratio side;
        for (const Quantity& plate : plates->loads[set].side)
            side += in_base_units(plate);
        EXPECT_EQ(plates->loads[set].mass, item.loads[set].terms.at(0).high);
        EXPECT_EQ(Ratio(20) + side + side, in_base_units(item.loads[set].terms.at(0).high));
    }
}

// 8 reps at RPE 8 leave two (Zourdos et al. 2016, JSCR 30:267-275): the load of 10 reps. 5 at
// RPE 8 are the load of 7, by Epley 120 / (1 + 7/30) = 97.297 kg; the same with 2 in reserve.
TEST(FitLoads, of_an_effort_are_those_of_more_repetitions) {
    const std::string by_rpe = "deadlift: 3 x 5 @ RPE 8\n";
    const Person person = fitted(lifter(of_120) + session(by_rpe));
    EXPECT_EQ(loads_of(person), "97.5 kg");
    ASSERT_EQ(person.workings.size(), 1U);
    EXPECT_EQ(person.workings[0].reps, Ratio(7));
    EXPECT_EQ(to_decimal(person.workings[0].target), "97.297");
    EXPECT_EQ(person.workings[0].basis, fit::Basis::reserve);
    ASSERT_NE(testing::item(person).find<program::Effort>(), nullptr);

    const Person reserve = fitted(lifter(of_120) + session("deadlift: 3 x 5, 2 in reserve\n"));
    ASSERT_EQ(reserve.workings.size(), 1U);
    EXPECT_EQ(reserve.workings[0].target, person.workings[0].target);
    const Person detail = fitted(lifter(of_120) + session("deadlift: 3 x 5, RPE 8\n"));
    EXPECT_EQ(loads_of(detail), "97.5 kg");
    // By the chart 7 reps are 83 %: 99.6 kg.
    const Person by_chart = fitted(lifter(of_120 + "  estimate by: chart\n") + session(by_rpe));
    ASSERT_EQ(by_chart.workings.size(), 1U);
    EXPECT_EQ(by_chart.workings[0].target, Ratio(498, 5));
    // Without a test the effort stays, and nothing is wrong.
    const Person untested = fitted(lifter("") + session(by_rpe));
    EXPECT_EQ(untested.problems, "");
    EXPECT_TRUE(untested.workings.empty());
    EXPECT_EQ(testing::item(untested).loads.at(0).terms.at(0).kind, program::LoadKind::rpe);
}

// From RPE 7 down the scale says no number of repetitions (same source).
TEST(FitLoads, of_a_low_effort_are_not_reckoned) {
    const Person person = fitted(lifter(of_120) + session("deadlift: 3 x 5 @ RPE 6\n"));
    EXPECT_TRUE(person.workings.empty());
    const Person at_7 = fitted(lifter(of_120) + session("deadlift: 3 x 5 @ RPE 7\n"));
    ASSERT_EQ(at_7.workings.size(), 1U);
    EXPECT_EQ(at_7.workings[0].reps, Ratio(8));
}

// Epley at 8 reps: 38/30. 120 / (38/30) = 94.737 kg, 90 % of it 85.263.
TEST(FitLoads, of_a_rep_max_go_back_through_the_equation) {
    const Person person = fitted(lifter(of_120) + session("deadlift: 3 x 5 @ 8 rep max\n"));
    ASSERT_EQ(person.workings.size(), 1U);
    EXPECT_EQ(person.workings[0].basis, fit::Basis::rep_max);
    EXPECT_EQ(to_decimal(person.workings[0].target), "94.737");
    EXPECT_EQ(loads_of(person), "95 kg");
    const Person share = fitted(lifter(of_120) + session("deadlift: 3 x 5 @ 90 % of 8 rep max\n"));
    ASSERT_EQ(share.workings.size(), 1U);
    EXPECT_EQ(to_decimal(share.workings[0].target), "85.263");
}

// A fifth of 72 kg is 14.4, and 1.5 x it 108 kg.
TEST(FitLoads, of_a_body_weight) {
    const Person person =
        fitted(lifter("  weight: 72 kg\n") + session("goblet squat: 3 x 8 @ 20 % of bodyweight\n"
                                                     "deadlift: 5 @ 1.5 x bodyweight\n"));
    EXPECT_EQ(person.problems, "");
    EXPECT_EQ(loads_of(person, 0), "15 kg");
    EXPECT_EQ(loads_of(person, 1), "107.5 kg");
    ASSERT_EQ(person.workings.size(), 2U);
    EXPECT_EQ(person.workings[0].target, Ratio(72, 5));
    EXPECT_EQ(person.workings[1].target, Ratio(108));
    EXPECT_EQ(fitted(lifter("") + session("deadlift: 5 @ 1.5 x bodyweight\n")).problems,
              "weight-missing");
}

// A quarter of 72 kg is 18, in each hand.
TEST(FitLoads, of_a_body_weight_in_each_hand) {
    const Person person = fitted(lifter("  weight: 72 kg\n") +
                                 session("farmer carry: 30 m @ 2 x 25 % of bodyweight\n"));
    EXPECT_EQ(person.problems, "");
    ASSERT_EQ(person.workings.size(), 1U);
    EXPECT_EQ(person.workings[0].target, Ratio(18));
    EXPECT_EQ(person.workings[0].implements, 2);
}

// One kettlebell is no pair, of pairs each has its fellow, and a bell without a weight may have
// one.
TEST(FitLoads, of_two_need_two_of_one_weight) {
    const auto carried = [](const std::string& kit) {
        return fitted(lifter("  weight: 72 kg\n  kit: " + kit + "\n") +
                      "movement farmer carry:\n  kit: kettlebell or dumbbell\n" +
                      session("farmer carry: 30 m @ 2 x 25 % of bodyweight\n"));
    };
    EXPECT_EQ(carried("kettlebell 16 kg").problems, "kit-lacking");
    EXPECT_EQ(carried("kettlebell 16 kg, dumbbell 16 kg").problems, "kit-lacking");
    EXPECT_EQ(carried("barbell 20 kg, 2 dumbbells 18 kg").problems, "");
    EXPECT_EQ(loads_of(carried("2 kettlebells 16 kg, kettlebell 18 kg")), "2 x 16 kg");
    EXPECT_EQ(loads_of(carried("pairs of dumbbells 8 16 20 kg")), "2 x 16 kg");
    EXPECT_EQ(carried("kettlebells").problems, "");
}

// 11 st 4 lb are 158 lb, 71.667594 kg (NIST SP 811); half of it 35.834.
TEST(FitLoads, of_a_body_weight_in_stones) {
    const Person person = fitted(lifter("  weight: 11 st 4 lb\n") +
                                 session("goblet squat: 3 x 8 @ 50 % of bodyweight\n"));
    ASSERT_EQ(person.workings.size(), 1U);
    EXPECT_EQ(to_decimal(person.workings[0].target), "35.834");
}

// Each hand: Epley of 8 x 20 kg is 25.333 kg, 70 % of it 17.733; of the pairs that are there 17.5
// is the nearest.
TEST(FitLoads, for_each_hand_are_those_of_one) {
    const std::string tests = "  test dumbbell bench press: 8 @ 2 x 20 kg on 2026-11-03\n";
    const std::string lines = session("dumbbell bench press: 3 x 8 @ 70 %\n");
    const Person person =
        fitted(lifter("  kit: 2 dumbbells 10 12.5 15 17.5 20 kg, bench\n" + tests) + lines);
    EXPECT_EQ(person.problems, "");
    EXPECT_EQ(loads_of(person), "2 x 17.5 kg");
    ASSERT_EQ(person.workings.size(), 1U);
    EXPECT_EQ(to_decimal(person.workings[0].target), "17.733");
    EXPECT_EQ(person.workings[0].implements, 2);
    // One of 17.5 kg alone makes no pair.
    EXPECT_EQ(
        loads_of(fitted(
            lifter("  kit: 2 dumbbells 10 15 20 kg, dumbbell 17.5 kg, bench\n" + tests) + lines)),
        "2 x 20 kg");
}

// 225 lb x 5 by Epley are 262.5 lb, 80 % of it 210 lb; a bar of 45 lb and its plates, of which 210
// takes 82.5 a side = 45 + 35 + 2.5 (common practice in pounds, no source).
TEST(FitLoads, in_pounds) {
    const std::string lines = session("deadlift: 3 x 5 @ 80 %\n");
    const std::string tests = "  units: lb\n  test deadlift: 5 @ 225 lb on 2026-11-02\n";
    const Person person =
        fitted(lifter(tests + "  kit: barbell 45 lb, 4 plates 45 35 25 10 5 2.5 lb\n") + lines);
    EXPECT_EQ(person.problems, "");
    EXPECT_EQ(loads_of(person), "210 lb");
    EXPECT_EQ(plates_of(person), "45+35+2.5");
    // Steps of 5 lb where no kit is known.
    const Person stepped = fitted(lifter(tests) + lines);
    EXPECT_EQ(loads_of(stepped), "210 lb");
    ASSERT_EQ(stepped.workings.size(), 1U);
    EXPECT_EQ(stepped.workings[0].made.step, (Quantity{Ratio(5), Unit::pound}));
    // 60 kg are 132.28 lb.
    EXPECT_EQ(loads_of(fitted(lifter("  units: lb\n") + session("deadlift: 3 x 5 @ 60 kg\n"))),
              "132 lb");
}

// Kilograms and pounds on one bar: 20 + 2 x (20 + 4.5359237) = 69.07 kg.
TEST(FitLoads, of_plates_in_both_units) {
    const Person person = fitted(lifter("  kit: barbell 20 kg, 2 plates 20 kg, 2 plates 10 lb\n") +
                                 session("deadlift: 3 x 5 @ 69 kg\n"));
    EXPECT_EQ(loads_of(person), "69.1 kg");
    EXPECT_EQ(plates_of(person), "20+10");
    EXPECT_EQ(person.problems, "load-unreachable");
}

// Two collars of 2.5 kg (IWF rules) belong to the load where they are listed: 38.75 a side.
TEST(FitLoads, hold_the_collars_that_are_listed) {
    const Person person = fitted(
        lifter("  kit: barbell 20 kg, 2 plates 25 20 15 10 5 2.5 1.25 kg, 2 collars 2.5 kg\n") +
        session("deadlift: 3 x 5 @ 102.5 kg\n"));
    EXPECT_EQ(loads_of(person), "102.5 kg");
    EXPECT_EQ(plates_of(person), "25+10+2.5+1.25");
    EXPECT_EQ(person.problems, "");
}

// The discs of the IWF rules make 102 or 103 kg: a tie, which goes down (our choice).
TEST(FitLoads, that_are_not_there_are_told) {
    const std::string discs = "  kit: barbell 20 kg, 2 plates 25 20 15 10 5 2.5 2 1.5 1 0.5 kg\n";
    const std::string lines = session("deadlift: 3 x 5 @ 102.5 kg\n");
    const analysis::Snapshot snapshot = tests::analyse_with_library(lifter(discs) + lines);
    EXPECT_EQ(tests::codes(snapshot), "warm-up-missing load-unreachable");
    EXPECT_EQ(loads_of(fitted(snapshot)), "102 kg");
    EXPECT_EQ(loads_of(fitted(lifter(discs + "  rounding: up\n") + lines)), "103 kg");
    EXPECT_EQ(loads_of(fitted(lifter(discs + "  rounding: down\n") + lines)), "102 kg");
    // Who says nothing of their kit has all that is written.
    const Person person = fitted(lifter("") + lines);
    EXPECT_EQ(loads_of(person), "102.5 kg");
    EXPECT_EQ(person.problems, "");
}

// 2000 m in 7:28.4 are 448.4 s, 112.1 s per 500 m; 6 s more are 1:58.1.
TEST(FitPaces, hang_on_the_time_of_a_test) {
    const Person person = fitted(lifter("  test row: 2000 m in 7:28.4 on 2026-11-03\n") +
                                 session("row: 4 x 500 m @ 2000 m pace plus 6 s\n"));
    EXPECT_EQ(person.problems, "");
    const program::LoadTerm& term = testing::item(person).loads.at(0).terms.at(0);
    EXPECT_EQ(term.kind, program::LoadKind::rate);
    EXPECT_EQ(term.low, (Quantity{Ratio(1181, 10), Unit::second}));
    EXPECT_EQ(term.per, (Quantity{Ratio(500), Unit::metre}));
    // Of a distance that was not tested the words stay.
    const Person other = fitted(lifter("  test row: 1000 m in 3:30 on 2026-11-03\n") +
                                session("row: 4 x 500 m @ 2000 m pace plus 6 s\n"));
    EXPECT_EQ(testing::item(other).loads.at(0).terms.at(0).kind, program::LoadKind::test_pace);
}

}  // namespace
}  // namespace stave
