// Sessions that are based on others.
#include <gtest/gtest.h>

#include "tests/unit/compose/composing.hpp"

namespace stave::tests {
namespace {

analysis::Snapshot analyse(std::string text) {
    return analyse_with({}, std::move(text));
}

const std::string base =
    "session 9: Slack water\n"
    "when: 2026-12-03 18:30 for 55 min\n"
    "place: Boathouse loft\n"
    "kit: barbell 20 kg, chair\n"
    "stop: sharp pain\n"
    "stop: dizziness\n"
    "sets Haul: rest 2 min\n"
    "  note: the long bar\n"
    "  deadlift: 4 x 5 @ 60 kg\n"
    "    cue: bar against the legs\n"
    "  chin-up: 3 x max\n"
    "circuit Deck legs: 3 rounds, rest 60 s\n"
    "  step-up: 10 each side\n"
    "  wall sit: 40 s\n"
    "cool-down:\n"
    "  stretch: 60 s\n";

// The base, and a session based on it.
analysis::Snapshot based(const std::string& rest, const std::string& name = "session 9") {
    return analyse(base + "session 10: High water\nbased on: " + name + "\n" + rest);
}

TEST(Base, gives_all_but_its_name_and_its_date) {
    for (const char* name : {"session 9", "Slack water", "slack  WATER", "Session 9"}) {
        const auto snapshot = based("", name);
        EXPECT_EQ(problem_lines(snapshot), "") << name;
        std::string expected = body_of(snapshot, 0);
        const std::size_t when = expected.find("  when ");
        expected.erase(when, expected.find('\n', when) + 1 - when);
        EXPECT_EQ(body_of(snapshot, 1), expected);
        EXPECT_EQ(snapshot.program.sessions[1].title, "High water");
        EXPECT_EQ(snapshot.program.sessions[1].number, "10");
    }
}

TEST(Base, gives_way_to_what_the_header_says_anew_but_keeps_when_to_stop) {
    const auto snapshot =
        based("when: 2026-12-10 18:30 for 55 min\nplace: Slipway\nstop: numb fingers\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    const program::Session& session = snapshot.program.sessions[1];
    EXPECT_EQ(session.place, "Slipway");
    EXPECT_EQ(session.stops, (std::vector<std::string>{"sharp pain", "dizziness", "numb fingers"}));
    EXPECT_EQ(session.kit.size(), 2U);
    EXPECT_TRUE(session.when.has_value());
}

TEST(Base, gives_its_series_its_coach_and_its_card_unless_they_are_said_anew) {
    const std::string told =
        "session 9: Slack water\n"
        "series: Winter strength\n"
        "coach: M. Okafor\n"
        "link: https://example.org/winter\n"
        "pages: 2\n"
        "sets Haul: rest 2 min\n"
        "  columns: 2\n"
        "  deadlift: 4 x 5 @ 60 kg\n"
        "session 10: High water\n"
        "based on: session 9\n";
    const auto same = analyse(told);
    EXPECT_EQ(problem_lines(same), "");
    EXPECT_EQ(body_of(same, 0), body_of(same, 1));
    const auto changed = analyse(told +
                                 "coach: J. Okafor\n"
                                 "pages: 1\n"
                                 "sets Haul:\n"
                                 "  columns: 1\n");
    EXPECT_EQ(problem_lines(changed), "");
    const program::Session& session = changed.program.sessions[1];
    EXPECT_EQ(session.series, "Winter strength");
    EXPECT_EQ(session.coach, "J. Okafor");
    EXPECT_EQ(session.link, "https://example.org/winter");
    EXPECT_EQ(session.pages, 1);
    EXPECT_EQ(session.blocks.front().columns, 1);
}

TEST(Base, gives_way_to_a_movement_of_the_same_name_in_the_same_block) {
    const auto snapshot = based("sets Haul:\n  Deadlift: 5 x 3 @ 65 kg\n  plank: 40 s\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(movements_of(snapshot, 1), "Deadlift, chin-up, plank | step-up, wall sit | stretch");
    const program::Block& block = snapshot.program.sessions[1].blocks.front();
    EXPECT_TRUE(block.items.front().cues.empty()) << "the lines below it go with it";
    EXPECT_EQ(block.notes, std::vector<std::string>{"the long bar"});
    EXPECT_TRUE(block.rest_between_sets.has_value()) << "the block runs as before";
}

TEST(Base, gives_way_to_how_a_block_runs) {
    const auto snapshot =
        based("circuit deck legs: 5 rounds, rest 45 s\n  note: to the bell\nsets Haul:\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    const auto& blocks = snapshot.program.sessions[1].blocks;
    EXPECT_EQ(blocks[1].rounds, 5);
    EXPECT_EQ(blocks[1].notes, std::vector<std::string>{"to the bell"});
    EXPECT_EQ(movements_of(snapshot, 1), movements_of(snapshot, 0));
}

TEST(Base, keeps_its_cool_down_last_when_a_block_is_added) {
    const auto snapshot = based("superset Extra: 2 rounds\n  curl: 8\n  dip: 8\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(movements_of(snapshot, 1),
              "deadlift, chin-up | step-up, wall sit | curl, dip | stretch");
}

TEST(Base, takes_movements_above_the_blocks_for_those_of_their_name) {
    const auto snapshot = based("wall sit: 55 s\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(movements_of(snapshot, 1), movements_of(snapshot, 0));
    EXPECT_TRUE(body_of(snapshot, 1).contains("55 s"));
    const auto none = based("plank: 40 s\n");
    EXPECT_EQ(codes(none), "base-no-movement");
    EXPECT_TRUE(problem_lines(none).contains("has no movement called plank"));
    const auto two = analyse(
        "session 9: A\nsets X:\nsquat: 5\nsets Y:\nsquat: 3\n"
        "session 10: B\nbased on: session 9\nsquat: 8\n");
    EXPECT_EQ(codes(two), "base-movement");
}

TEST(Base, may_have_no_blocks_at_all) {
    const auto snapshot = analyse(
        "session 9: A\nsquat: 5\nrow: 5 min\n"
        "session 10: B\nbased on: session 9\nsquat: 8\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(movements_of(snapshot, 1), "squat, row");
}

TEST(Base, leaves_movements_and_blocks_out) {
    const auto movement = based("leave out: Wall sit, chin-up\n");
    EXPECT_EQ(problem_lines(movement), "");
    EXPECT_EQ(movements_of(movement, 1), "deadlift | step-up | stretch");
    const auto block = based("leave out: Deck legs\n");
    EXPECT_EQ(problem_lines(block), "");
    EXPECT_EQ(movements_of(block, 1), "deadlift, chin-up | stretch");
    const auto last_of_its_block = based("leave out: stretch\n");
    EXPECT_EQ(problem_lines(last_of_its_block), "");
    EXPECT_EQ(movements_of(last_of_its_block, 1), "deadlift, chin-up | step-up, wall sit");
}

TEST(Base, tells_what_cannot_be_left_out) {
    const auto near = based("leave out: wall sits\n");
    ASSERT_EQ(codes(near), "leave-out-unknown");
    EXPECT_EQ(place(near), "wall sits");
    EXPECT_EQ(first_fix(near), "wall sit");
    const auto far = based("leave out: deadlift, hovering\n");
    ASSERT_EQ(codes(far), "leave-out-unknown");
    EXPECT_EQ(place(far), "hovering");
    EXPECT_EQ(first_fix(far), "");
    const auto alone = analyse("session: A\nleave out: squat\nsquat: 5\n");
    EXPECT_EQ(codes(alone), "line-not-here");
}

TEST(Base, may_be_based_on_another) {
    const auto snapshot = analyse(
        "session 11: C\nbased on: session 10\nleave out: chin-up\n"
        "session 10: B\nbased on: session 9\nsets Haul:\n  deadlift: 5 x 3 @ 65 kg\n" +
        base);
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(movements_of(snapshot, 0), "deadlift | step-up, wall sit | stretch");
    EXPECT_TRUE(body_of(snapshot, 0).contains("65"));
}

TEST(Base, that_comes_back_to_itself_is_refused) {
    const auto itself = analyse("session 9: A\nbased on: session 9\nsquat: 5\n");
    EXPECT_EQ(codes(itself), "base-cycle");
    EXPECT_EQ(place(itself), "session 9");
    const auto in_turn = analyse(
        "session 9: A\nbased on: session 10\nsession 10: B\nbased on: session 11\n"
        "session 11: C\nbased on: session 9\n");
    EXPECT_EQ(codes(in_turn), "base-cycle") << "one slip, one problem";
}

TEST(Base, that_is_unknown_is_told_with_the_one_that_is_near) {
    const auto near = based("", "Slack watre");
    ASSERT_EQ(codes(near), "base-unknown");
    EXPECT_EQ(place(near), "Slack watre");
    EXPECT_EQ(first_fix(near), "Slack water") << "as it is written";
    const auto far = based("", "session 77");
    ASSERT_EQ(codes(far), "base-unknown");
}

TEST(Base, that_is_unknown_does_not_make_the_rest_unknown) {
    const auto snapshot = analyse(
        base + "session 10: B\nbased on: session 77\nsession 11: C\nbased on: session 10\n");
    EXPECT_EQ(codes(snapshot), "base-unknown");
}

TEST(Base, may_come_from_an_included_file) {
    const auto snapshot = analyse_with(
        {{"old.stave", base}}, "include: old.stave\nsession 10: B\nbased on: Slack water\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    ASSERT_EQ(snapshot.program.sessions.size(), 1U);
    EXPECT_EQ(movements_of(snapshot), "deadlift, chin-up | step-up, wall sit | stretch");
    const auto own_first = analyse_with(
        {{"old.stave", base}},
        "include: old.stave\nsession 9: Own\nrow: 5 min\nsession 10: B\nbased on: session 9\n");
    EXPECT_EQ(movements_of(own_first, 1), "row");
}

TEST(Base, may_hold_uses_of_routines) {
    const auto snapshot = analyse(
        "routine Legs: reps 8\n  squat: [reps]\n"
        "session 9: A\nsets Main:\n  use Legs:\n  row: 5 min\n"
        "session 10: B\nbased on: session 9\nsets Main:\n  squat: 12\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(movements_of(snapshot, 1), "squat, row");
    EXPECT_TRUE(body_of(snapshot, 1).contains("12 reps"));
}

TEST(Base, tells_a_problem_of_its_lines_once) {
    const auto snapshot = analyse(
        "session 9: A\nsquat: 3 x 500\nsession 10: B\nbased on: session 9\n"
        "session 11: C\nbased on: session 9\n");
    EXPECT_EQ(codes(snapshot), "count-high");
}

TEST(Base, is_said_once) {
    const auto snapshot =
        analyse(base + "session 10: B\nbased on: session 9\nbased on: Slack water\n");
    EXPECT_EQ(snapshot.sink.errors(), 1U) << problem_lines(snapshot);
}

TEST(Base, may_be_twenty_deep_and_no_more) {
    const auto chain = [](int length) {
        std::string text = "session 0:\nrow: 5 min\n";
        for (int i = 1; i <= length; ++i) {
            text += "session " + std::to_string(i) + ":\nbased on: session " +
                    std::to_string(i - 1) + '\n';
        }
        return analyse(text);
    };
    const auto deepest = chain(static_cast<int>(compose::deepest_base));
    EXPECT_EQ(problem_lines(deepest), "");
    EXPECT_EQ(movements_of(deepest, compose::deepest_base), "row");
    EXPECT_EQ(codes(chain(static_cast<int>(compose::deepest_base) + 1)), "base-too-long");
}

TEST(Base, near_by_guess_alone_is_no_mend) {
    const std::string titles = "session: Ebb\nrow: 5 min\nsession: Neap tide\nrow: 5 min\n";
    for (const char* name : {"Eb", "C", "Neap flow"}) {
        const auto snapshot = analyse(titles + "session: D\nbased on: " + name + "\n");
        ASSERT_EQ(codes(snapshot), "base-unknown") << name;
        EXPECT_EQ(first_fix(snapshot), "") << name;
    }
    const auto number = based("", "session 11");
    ASSERT_EQ(codes(number), "base-unknown");
    EXPECT_EQ(first_fix(number), "") << "another number";
    const auto own = analyse(titles + "session: Spring tide\nbased on: Sprig tide\n");
    ASSERT_EQ(codes(own), "base-unknown");
    EXPECT_EQ(first_fix(own), "") << "itself";
    const auto slip = based("", "Slack watr");
    ASSERT_EQ(codes(slip), "base-unknown");
    EXPECT_EQ(first_fix(slip), "Slack water");
}

TEST(Base, with_two_blocks_alike_is_told) {
    const auto snapshot = analyse(
        "session 1: A\nsets:\n  squat: 5\nsets:\n  lunge: 5\n"
        "session 2: B\nbased on: session 1\nsets:\n  squat: 8\n");
    ASSERT_EQ(codes(snapshot), "base-block");
    EXPECT_EQ(snapshot.source->position(snapshot.sink.sorted()[0].span.begin).line, 8U);
}

TEST(Base, leaves_out_behind_commas_of_every_form) {
    const auto snapshot = based("leave out: wall sit\uFF0Cchin-up\u3001stretch\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(movements_of(snapshot, 1), "deadlift | step-up");
}

}  // namespace
}  // namespace stave::tests
