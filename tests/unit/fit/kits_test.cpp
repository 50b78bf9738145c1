// Kit lines to what can be made of them.

#include <algorithm>

#include "compiler/fit/inventory.hpp"
#include "tests/unit/fit/fitting.hpp"

namespace stave {
namespace {

using testing::fitted;
using testing::loads_of;
using testing::Person;
using testing::plates_of;
using testing::session;

Person with(const std::string& kit, const std::string& lines) {
    return fitted("athlete Mara:\n  kit: " + kit + "\n\n" + session(lines));
}

// "1.25 x 2" for two pairs.
std::string plates(const std::string& kit) {
    const analysis::Snapshot snapshot =
        tests::analyse_with_library("athlete Mara:\n  kit: " + kit + "\n");
    std::string text;
    for (const fit::Stock& one : fit::take_stock(snapshot.program.athletes.at(0).kit).plates)
        text += (text.empty() ? "" : ", ") + to_decimal(one.mass.value) + " x " +
                std::to_string(one.count);
    return text;
}

// A bar wants one plate for each side; how they are counted is the notation's own rule.
TEST(Kits, count_plates_by_pairs) {
    EXPECT_EQ(plates("barbell 20 kg, plates 20 kg"), "20 x 1");
    EXPECT_EQ(plates("barbell 20 kg, 4 plates 5 20 kg"), "20 x 2, 5 x 2");
    EXPECT_EQ(plates("barbell 20 kg, 2 pairs of plates 20 kg"), "20 x 2");
    EXPECT_EQ(plates("barbell 20 kg, 3 plates 20 kg"), "20 x 1");
}

TEST(Kits, of_a_place_are_called_by_name) {
    const Person person = fitted(
        "kit Boathouse loft: barbell 20 kg, 2 plates 10 kg\n\n"
        "athlete Mara:\n  kit: Boathouse loft, 2 plates 5 kg\n\n" +
        session("deadlift: 3 x 5 @ 50 kg\n"));
    EXPECT_EQ(loads_of(person), "50 kg");
    EXPECT_EQ(plates_of(person), "10+5");
    EXPECT_EQ(person.problems, "");
}

// The men's bar of the IWF rules weighs 20 kg.
TEST(Kits, have_a_usual_bar) {
    EXPECT_EQ(plates_of(with("barbell, 2 plates 10 kg", "deadlift: 3 x 5 @ 40 kg\n")), "10");
    EXPECT_EQ(loads_of(with("barbell 15 kg, 2 plates 10 kg", "deadlift: 3 x 5 @ 35 kg\n")),
              "35 kg");
}

TEST(Kits, hold_what_people_make_do_with) {
    const std::string lines = "backpack squat: 3 x 8 @ 12 kg\n";
    const Person there = with("backpack 12 kg", lines);
    EXPECT_EQ(loads_of(there), "12 kg");
    EXPECT_EQ(there.problems, "");
    const Person lighter = with("backpack 8 kg", lines);
    EXPECT_EQ(loads_of(lighter), "8 kg");
    EXPECT_EQ(lighter.problems, "load-unreachable");
}

TEST(Kits, name_bells_in_one_and_in_many) {
    const std::string lines = "goblet squat: 3 x 8 @ 20 kg\n";
    // 20 lies half way between 16 and 24: it goes down (our choice).
    EXPECT_EQ(loads_of(with("kettlebell 16 kg, 2 kettlebells 24 kg", lines)), "16 kg");
    EXPECT_EQ(loads_of(with("kettlebells 12 16 20 24 kg", lines)), "20 kg");
    EXPECT_EQ(loads_of(with("dumbbells 10 22.5 kg", lines)), "22.5 kg");
}

// Two of a weight that are listed one by one are a pair.
TEST(Kits, make_pairs_of_what_is_listed_twice) {
    EXPECT_EQ(loads_of(with("dumbbell 10 kg, dumbbell 10 kg, 2 dumbbells 5 kg, bench",
                            "dumbbell bench press: 3 x 8 @ 2 x 10 kg\n")),
              "2 x 10 kg");
}

// Plates in both units on one bar: sums of 0.5 kg and of 1 lb meet nowhere near.
TEST(Kits, of_too_many_loads_are_told_of_once) {
    const auto told = [](const std::string& plates) {
        const analysis::Snapshot snapshot = tests::analyse_with_library(
            "kit Loft: barbell 20 kg, " + plates + "\n\nathlete Mara:\n  kit: Loft\n" +
            "athlete Jonas:\n  kit: Loft\n\n" + session("deadlift: 3 x 5 @ 60 kg\n"));
        return std::ranges::count(snapshot.sink.sorted(), Code::kit_too_many, &Diagnostic::code);
    };
    EXPECT_EQ(told("30 pairs of plates 25 20 15 10 5 2.5 1.25 0.5 0.25 kg"), 0);
    EXPECT_EQ(told("10 pairs of plates 25 20 15 10 5 2.5 1.25 kg, 10 pairs of plates 45 35 25 10 5 "
                   "2.5 lb"),
              1);
}

TEST(Kits, have_bars_to_hang_from_that_take_no_plates) {
    const Person person =
        with("pull-up bar, 2 plates 10 kg, barbell 20 kg", "deadlift: 3 x 5 @ 40 kg\n");
    EXPECT_EQ(loads_of(person), "40 kg");
    EXPECT_EQ(with("pull-up bar, 2 plates 10 kg", "deadlift: 3 x 5 @ 40 kg\n").problems,
              "kit-lacking");
}

}  // namespace
}  // namespace stave
