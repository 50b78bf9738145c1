// Tests to maxes: which of them counts on a day, and what is made of it.

#include "tests/unit/fit/fitting.hpp"

namespace stave {
namespace {

using testing::fitted;
using testing::Person;
using testing::session;

Person with_tests(const std::string& tests,
                  const std::string& lines = "deadlift: 3 x 5 @ 100 %\n") {
    return fitted("athlete Mara:\n" + tests + "\n" + session(lines));
}

std::string max_of(const Person& person) {
    if (person.workings.empty() || !person.workings[0].max) return "none: " + person.problems;
    return to_decimal(person.workings[0].max->kilograms, 2);
}

// 100 kg x 5 and x 10, 80 kg x 3 by each equation, from the published formulas (equations.hpp).
TEST(Maxes, go_by_the_equation_that_is_asked_for) {
    struct Row {
        const char* word;
        const char* maxes[3];
    };
    const Row rows[] = {
        {"Epley", {"116.67", "133.33", "88"}},       {"Brzycki", {"112.5", "133.33", "84.71"}},
        {"Lombardi", {"117.46", "125.89", "89.29"}}, {"Lander", {"113.71", "134.07", "85.76"}},
        {"Mayhew", {"119.01", "130.93", "91.19"}},   {"O'Conner", {"112.5", "125", "86"}},
        {"Wathan", {"116.58", "134.75", "87.18"}}};
    const char* sets[] = {"5 @ 100 kg", "10 @ 100 kg", "3 @ 80 kg"};
    for (const Row& row : rows) {
        for (std::size_t i = 0; i < 3; ++i) {
            EXPECT_EQ(max_of(with_tests(std::string("  estimate by: ") + row.word +
                                        "\n  test deadlift: " + sets[i] + " on 2026-11-02\n")),
                      row.maxes[i])
                << row.word << ' ' << sets[i];
        }
    }
    // Where nothing is said, Epley; by the chart 5 reps are 87 %: 114.94 kg.
    EXPECT_EQ(max_of(with_tests("  test deadlift: 5 @ 100 kg on 2026-11-02\n")), "116.67");
    EXPECT_EQ(max_of(with_tests("  estimate by: chart\n"
                                "  test deadlift: 5 @ 100 kg on 2026-11-02\n")),
              "114.94");
}

// A single is the max itself, whatever the equation.
TEST(Maxes, of_a_single_are_its_load) {
    for (const char* word : {"Epley", "Mayhew", "Wathan", "chart", "spread"}) {
        EXPECT_EQ(max_of(with_tests(std::string("  estimate by: ") + word +
                                    "\n  test deadlift: 1 @ 120 kg on 2026-11-02\n")),
                  "120");
    }
}

// The equations are proportional to the load: 150 kg are half as much again as 100.
TEST(Maxes, rise_with_the_load) {
    for (const char* word : {"Epley", "Brzycki", "Lombardi", "Lander", "O'Conner"}) {
        const auto of = [&](const std::string& load) {
            const Person person =
                with_tests(std::string("  estimate by: ") + word + "\n  test deadlift: 4 @ " +
                           load + " kg on 2026-11-02\n");
            return person.workings.at(0).max->kilograms;
        };
        // Both are rounded to a milligram.
        const Ratio off = of("150") - of("100") * Ratio(3, 2);
        EXPECT_LE(off, Ratio(2, 1'000'000)) << word;
        EXPECT_GE(off, Ratio(-2, 1'000'000)) << word;
    }
}

// Of the seven at 5 reps: 112.50 to 119.01 with 116.58 in the middle.
TEST(Maxes, spread_over_the_seven_equations) {
    const Person person =
        with_tests("  estimate by: spread\n  test deadlift: 5 @ 100 kg on 2026-11-02\n");
    ASSERT_EQ(person.workings.size(), 1U);
    const fit::Max& max = *person.workings[0].max;
    EXPECT_EQ(to_decimal(max.least, 2), "112.5");
    EXPECT_EQ(to_decimal(max.kilograms, 2), "116.58");
    EXPECT_EQ(to_decimal(max.greatest, 2), "119.01");
    EXPECT_EQ(max.estimate, program::Estimate::spread);
}

// The chart ends at 12 reps; longer sets go by Epley: 80 x (1 + 15/30) = 120 kg.
TEST(Maxes, of_longer_sets_than_the_chart_knows_go_by_epley) {
    const Person person =
        with_tests("  estimate by: chart\n  test deadlift: 15 @ 80 kg on 2026-11-02\n");
    EXPECT_EQ(max_of(person), "120");
    EXPECT_EQ(person.workings.at(0).max->estimate, program::Estimate::epley);
    EXPECT_TRUE(person.session.methods->has_many_reps);
}

// The rules below are the notation's own.
TEST(Tests, count_from_their_day_on) {
    const std::string tests =
        "  test deadlift: 1 @ 130 kg on 2026-12-02\n"
        "  test deadlift: 1 @ 120 kg on 2026-11-20\n"
        "  test deadlift: 1 @ 125 kg on 2026-10-20\n";
    EXPECT_EQ(max_of(with_tests(tests)), "120");
    EXPECT_EQ(max_of(with_tests(tests + "  test deadlift: 1 @ 110 kg on 2026-12-01\n")), "110");
}

TEST(Tests, of_one_day_count_by_the_most) {
    // Epley: 100 x 5 -> 116.67, 110 x 2 -> 117.33.
    EXPECT_EQ(max_of(with_tests("  test deadlift: 2 @ 110 kg on 2026-11-20\n"
                                "  test deadlift: 5 @ 100 kg on 2026-11-20\n")),
              "117.33");
    EXPECT_EQ(max_of(with_tests("  test deadlift: 5 @ 100 kg on 2026-11-20\n"
                                "  test deadlift: 2 @ 110 kg on 2026-11-20\n")),
              "117.33");
}

TEST(Tests, that_are_all_later_are_missing) {
    const std::string tests = "  test deadlift: 1 @ 130 kg on 2026-12-02\n";
    const Person person = with_tests(tests);
    EXPECT_EQ(person.problems, "test-missing");
    EXPECT_TRUE(person.workings.empty());
    const analysis::Snapshot snapshot = tests::analyse_with_library(
        "athlete Mara:\n" + tests + "\n" + session("deadlift: 3 x 5 @ 80 %\n"));
    EXPECT_TRUE(snapshot.sink.has_errors());
    EXPECT_NE(tests::problem_lines(snapshot).find("on or before 2026-12-01"), std::string::npos);
}

TEST(Tests, of_a_session_without_a_day_count_by_the_newest) {
    const Person person = fitted(
        "athlete Mara:\n  test deadlift: 1 @ 120 kg on 2026-11-20\n"
        "  test deadlift: 1 @ 130 kg on 2031-12-02\n\n"
        "session 1: Slipway\nsets:\n  deadlift: 3 x 5 @ 100 %\n");
    EXPECT_EQ(max_of(person), "130");
    EXPECT_EQ(person.problems, "");
}

// 2026-09-08 is 84 days before 2026-12-01, 12 weeks to the day.
TEST(Tests, get_old_after_12_weeks) {
    EXPECT_EQ(with_tests("  test deadlift: 1 @ 120 kg on 2026-09-08\n").problems, "");
    EXPECT_EQ(with_tests("  test deadlift: 1 @ 120 kg on 2026-09-07\n").problems, "test-old");
    EXPECT_EQ(max_of(with_tests("  test deadlift: 1 @ 120 kg on 2026-09-07\n")), "120");
}

TEST(Tests, of_another_name_of_the_movement_count) {
    EXPECT_EQ(max_of(with_tests("  test barbell deadlift: 1 @ 120 kg on 2026-11-02\n")), "120");
}

TEST(Tests, of_another_movement_do_not) {
    const analysis::Snapshot snapshot = tests::analyse_with_library(
        "athlete Mara:\n  test romanian deadlift: 1 @ 90 kg on 2026-11-02\n\n" +
        session("deadlift: 3 x 5 @ 80 %\n"));
    EXPECT_NE(tests::codes(snapshot).find("test-missing"), std::string::npos);
    EXPECT_NE(tests::problem_text(snapshot).find("would be a guess"), std::string::npos);
}

// "80 % of back squat" hangs on the test of the back squat.
TEST(Tests, of_a_movement_that_is_named_count) {
    const Person person = with_tests("  test back squat: 1 @ 100 kg on 2026-11-02\n",
                                     "front squat: 3 x 5 @ 80 % of back squat\n");
    EXPECT_EQ(person.problems, "");
    EXPECT_EQ(testing::loads_of(person), "80 kg");
}

// Nine tenths of the max (common practice, no source): 80 % of 108 kg are 86.4.
TEST(Tests, give_a_training_max) {
    const Person person = with_tests("  test deadlift: 1 @ 120 kg on 2026-11-02\n",
                                     "deadlift: 3 x 5 @ 80 % of training max\n");
    ASSERT_EQ(person.workings.size(), 1U);
    EXPECT_EQ(person.workings[0].target, Ratio(432, 5));
}

}  // namespace
}  // namespace stave
