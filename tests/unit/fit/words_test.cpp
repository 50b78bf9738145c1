// The coach's own words on the card of somebody who is to avoid what they name. The rules are
// the notation's own.

#include "tests/unit/fit/fitting.hpp"

namespace stave {
namespace {

using testing::fitted;
using testing::Person;

// The problems of who avoids something, with a session's lines.
std::string problems(const std::string& avoid, const std::string& lines,
                     const std::string& title = "Slipway") {
    return fitted("athlete Mara:\n  avoid: " + avoid + "\n\nsession 1: " + title +
                  "\nwhen: 2026-12-01 18:00\nsets:\n" + lines)
        .problems;
}

TEST(AvoidedInWords, are_warned_of_wherever_they_stand) {
    const std::string named = "avoided-in-words";
    EXPECT_EQ(problems("jumping", "push-up: 3 x 8\n", "Jumps and sprints"), named);
    EXPECT_EQ(problems("jumping", "push-up: 3 x 8\n  cue: land softly from the jump\n"), named);
    EXPECT_EQ(problems("jumping", "push-up: 3 x 8\n  note: after the jumping\n"), named);
    EXPECT_EQ(problems("jumping", "push-up: 3 x 8\n  stop: if you cannot jump any more\n"), named);
    EXPECT_EQ(problems("deadlift", "push-up: 3 x 8\n  note: before the deadlifts\n"), named);
    EXPECT_EQ(problems("overhead", "push-up: 3 x 8\n  cue: as in the overhead press\n"), named);
    EXPECT_EQ(problems("jumping", "push-up: 3 x 8, rest 60 s jumping\n"), named);
}

// What nobody is asked to do is no danger, and a word within another no word.
TEST(AvoidedInWords, are_not_found_where_nothing_is_named) {
    EXPECT_EQ(problems("jumping", "push-up: 3 x 8\n  cue: no jumping, do not jump\n"), "");
    EXPECT_EQ(problems("hanging", "push-up: 3 x 8\n  cue: change hands, nothing changes\n"), "");
    EXPECT_EQ(problems("loaded spine", "push-up: 3 x 8\n  cue: keep the spine long\n"), "");
    EXPECT_EQ(problems("push", "walk: 5 min\n  cue: push the floor away\n"), "");
    EXPECT_EQ(problems("jumping", "push-up: 3 x 8\n  cue: elbows in\n"), "");
}

// A movement that gives way takes its words along, so that nothing is left to warn of.
TEST(AvoidedInWords, go_with_the_movement_that_they_stand_below) {
    const Person person = fitted(
        "athlete Mara:\n  avoid: jumping\n\nsession 1: Slipway\nwhen: 2026-12-01 18:00\nsets:\n"
        "box jump: 3 x 5\n  cue: jump as high as you land\n  note: jumps are counted\n"
        "  or push-up: 3 x 8\n    cue: elbows in\n");
    EXPECT_EQ(person.problems, "");
    EXPECT_EQ(testing::name_of(person), "push-up");
    EXPECT_EQ(testing::item(person).cues, std::vector<std::string>{"elbows in"});
    EXPECT_TRUE(testing::item(person).notes.empty());
}

TEST(AvoidedInWords, of_any_length_are_quoted_in_whole_characters) {
    std::string cue = "κ";
    for (int i = 0; i < 80; ++i)
        cue += "άλμα ";
    EXPECT_EQ(problems("jumping", "push-up: 3 x 8\n  cue: " + cue + "jump\n"), "avoided-in-words");
}

}  // namespace
}  // namespace stave
