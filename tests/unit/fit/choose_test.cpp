// Substitutes: by kit, by what is to be avoided, and what stays blank. The rules are the
// notation's own.

#include "compiler/diagnostics/catalogue.hpp"
#include "tests/unit/fit/fitting.hpp"

namespace stave {
namespace {

using fit::Outcome;
using testing::fitted;
using testing::name_of;
using testing::Person;
using testing::session;

Person with(const std::string& athlete, const std::string& lines) {
    return fitted("athlete Mara:\n" + athlete + "\n" + session(lines));
}

const std::string press =
    "push press: 3 x 5 @ 40 kg\n"
    "  or goblet squat: 3 x 8 @ 12 kg, if no barbell\n"
    "  or push-up: 3 x 8\n";

TEST(Substitutes, are_taken_in_order_for_want_of_kit) {
    EXPECT_EQ(name_of(with("  kit: barbell 20 kg, 2 plates 10 kg\n", press)), "push press");
    const Person bell = with("  kit: kettlebell 12 kg, rower\n",
                             "deadlift: 3 x 5 @ 40 kg\n"
                             "  or goblet squat: 3 x 8 @ 12 kg, if no barbell\n"
                             "  or push-up: 3 x 8\n");
    EXPECT_EQ(name_of(bell), "goblet squat");
    ASSERT_EQ(bell.choices.size(), 1U);
    EXPECT_EQ(bell.choices[0].outcome, Outcome::substituted);
    EXPECT_EQ(bell.choices[0].written, "deadlift");
    EXPECT_EQ(bell.choices[0].reason, "no barbell");
    EXPECT_EQ(bell.problems, "");
    // Neither barbell nor bell.
    EXPECT_EQ(name_of(with("  kit: rower\n", press)), "push-up");
}

TEST(Substitutes, are_not_needed_where_no_kit_line_is) {
    EXPECT_EQ(name_of(with("", press)), "push press");
    EXPECT_EQ(with("", press).problems, "");
}

TEST(Substitutes, for_how_somebody_is_are_not_chosen_for_want_of_kit) {
    const Person person = with("  kit: kettlebell 12 kg\n",
                               "deadlift: 3 x 5 @ 40 kg\n  or push-up: 3 x 8, if knees hurt\n");
    EXPECT_EQ(name_of(person), "deadlift");
    EXPECT_EQ(person.choices.at(0).outcome, Outcome::lacking);
    EXPECT_EQ(person.problems, "kit-lacking load-unreachable" == person.problems
                                   ? "kit-lacking load-unreachable"
                                   : "kit-lacking");
    // On the day it is still theirs to choose.
    ASSERT_EQ(testing::item(person).substitutes.size(), 1U);
    EXPECT_EQ(testing::item(person).substitutes[0].condition, "knees hurt");
}

// 75 % of 100 kg is 75 kg; nothing there makes it.
TEST(Substitutes, that_are_not_there_leave_a_mark_and_the_load) {
    const std::string test = "  test deadlift: 1 @ 100 kg on 2026-11-03\n";
    const Person person = with("  kit: box 40 cm\n" + test, "deadlift: 3 x 5 @ 75 %\n");
    EXPECT_EQ(testing::item(person).lacking, std::vector<std::string>{"barbell"});
    EXPECT_EQ(testing::loads_of(person), "75 kg");
    EXPECT_EQ(testing::plates_of(person), "none");
    EXPECT_EQ(person.workings.size(), 1U);
    EXPECT_EQ(person.problems, "kit-lacking");
    // What it weighs and whether there is a test is no matter of whom it cannot be done by.
    const Person untested = with("  kit: none\n", "goblet squat: 8 @ 20 % of bodyweight\n");
    EXPECT_EQ(testing::item(untested).lacking,
              (std::vector<std::string>{"kettlebell", "dumbbell"}));
    EXPECT_EQ(untested.problems, "kit-lacking");
    EXPECT_TRUE(testing::item(with("", press)).lacking.empty());
}

TEST(Substitutes, without_the_kit_that_they_need_are_passed_over) {
    const Person person = with("  kit: rower\n",
                               "deadlift: 3 x 5 @ 40 kg\n"
                               "  or kettlebell swing: 3 x 8 @ 12 kg, if no barbell\n"
                               "  or glute bridge: 3 x 8\n");
    EXPECT_EQ(name_of(person), "glute bridge");
}

// The library's push press asks for overhead work.
TEST(Avoided, demands_lead_to_a_substitute) {
    const Person person = with("  avoid: overhead\n", press);
    EXPECT_EQ(name_of(person), "push-up");
    EXPECT_EQ(person.choices.at(0).outcome, Outcome::substituted);
    EXPECT_EQ(person.choices.at(0).reason.rfind("is to avoid overhead", 0), 0U);
}

// What speaks of what is avoided is meant for whom avoids it.
TEST(Avoided, demands_meet_conditions_that_speak_of_them) {
    EXPECT_EQ(name_of(with("  avoid: jumping\n",
                           "box jump: 3 x 5\n  or goblet squat: 3 x 8 @ 12 kg, if no barbell\n"
                           "  or push-up: 3 x 8, if jumps hurt\n")),
              "push-up");
}

// Whether its name stands anywhere in what the card is made of.
bool is_named(const Person& person, const std::string& name) {
    return program::dump(person.session).find(name) != std::string::npos;
}

TEST(Avoided, movements_without_a_substitute_leave_a_blank) {
    const Person person = with("  avoid: overhead\n", "push press: 3 x 5 @ 40 kg\nrow: 500 m\n");
    EXPECT_EQ(name_of(person, 0), testing::blank_name);
    EXPECT_EQ(name_of(person, 1), "row");
    EXPECT_EQ(person.choices.at(0).outcome, Outcome::blank);
    EXPECT_EQ(person.choices.at(0).done, "");
    EXPECT_FALSE(is_named(person, "push press"));
    EXPECT_NE(person.problems.find("left-blank"), std::string::npos);
    EXPECT_EQ(testing::item(person).set_count(), 3U);
    EXPECT_TRUE(testing::item(person).loads.empty());
}

TEST(Avoided, patterns_and_movements_too) {
    const Person pattern = with("  avoid: lunge\n", "walking lunge: 3 x 8\n  or push-up: 3 x 8\n");
    EXPECT_EQ(name_of(pattern), "push-up");
    EXPECT_FALSE(is_named(pattern, "lunge"));
    const Person movement = with("  avoid: deadlift\n",
                                 "barbell deadlift: 3 x 5 @ 40 kg\n  or push-up: 3 x 8\n"
                                 "push-up: 3 x 8\n  or deadlift: 3 x 5 @ 40 kg\n");
    EXPECT_EQ(name_of(movement, 0), "push-up");
    EXPECT_EQ(name_of(movement, 1), "push-up");
    EXPECT_FALSE(is_named(movement, "deadlift"));
}

// The words of the warnings of a session for one athlete.
std::string whys(const std::string& athlete, const std::string& lines) {
    const analysis::Snapshot snapshot =
        tests::analyse_with_library("athlete Mara:\n" + athlete + "\n" + session(lines));
    std::string text;
    for (const Diagnostic& one : snapshot.sink.sorted()) {
        if (one.code == Code::left_blank || one.code == Code::kit_lacking)
            text += why(one) + " " + mend(one);
    }
    return text;
}

TEST(Avoided, blanks_say_which_substitute_fell_for_want_of_kit) {
    const std::string text = whys("  avoid: jumping\n  kit: rower\n",
                                  "box jump: 3 x 5\n  or goblet squat: 3 x 8, if no jumping\n");
    EXPECT_NE(text.find("For goblet squat there is no kettlebell or dumbbell."), std::string::npos)
        << text;
    EXPECT_NE(text.find("if no jumping"), std::string::npos) << text;
}

// A movement of the same kind may be the harder one: what is easier comes first, and is called so.
TEST(Substitutes, are_suggested_with_how_they_are_related) {
    const std::string movements =
        "movement plank row:\n  pattern: pull\n  kit: rower\n  easier: seated tug\n"
        "  harder: wall tug\nmovement wall tug:\n  pattern: pull\nmovement seated tug:\n"
        "  pattern: push\n";
    const std::string easier = "  kit: box\n";
    EXPECT_NE(whys(easier, "plank row: 3 x 8\n" + movements).find("Easier is seated tug."),
              std::string::npos);
    EXPECT_NE(whys(easier + "  avoid: seated tug\n", "plank row: 3 x 8\n" + movements)
                  .find("Harder, and theirs only if you think so, is wall tug."),
              std::string::npos);
}

// What stands below the avoided movement may name it too.
TEST(Avoided, movements_are_named_nowhere) {
    const Person person = with("  avoid: overhead\n",
                               "push press: 3 x 5 @ 40 kg\n  cue: drive the push press\n"
                               "  note: push press from blocks\n");
    EXPECT_FALSE(is_named(person, "push press"));
}

// Nothing is known of it, so somebody has to look.
TEST(Avoided, demands_are_not_known_of_all_movements) {
    const Person person = with("  avoid: overhead\n", "rope ladder dance: 3 x 8\n");
    EXPECT_EQ(person.problems, "avoid-unknown");
    EXPECT_EQ(name_of(person), "rope ladder dance");
}

}  // namespace
}  // namespace stave
