// Routines and their uses.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/unit/compose/composing.hpp"

namespace stave::tests {
namespace {

analysis::Snapshot analyse(std::string text) {
    return analyse_with({}, std::move(text));
}

const std::string shoulder_prep =
    "routine Shoulder prep: reps 8, band light\n"
    "  warm-up Shoulders:\n"
    "    pull-apart: [reps] @ band [band]\n"
    "    wall slide: 8\n";

// What a use must come to.
std::string written_out(const std::string& reps, const std::string& band) {
    return "session: Loft\nwarm-up Shoulders:\n  pull-apart: " + reps + " @ band " + band +
           "\n  wall slide: 8\nsets:\n  row: 5 min\n";
}

std::string used(const std::string& use) {
    return shoulder_prep + "session: Loft\n" + use + "\nsets:\n  row: 5 min\n";
}

TEST(Routine, is_what_it_would_be_written_out) {
    for (const auto& [use, reps, band] : {
             std::array{"use Shoulder prep:", "8", "light"},
             std::array{"use Shoulder prep: 10 reps", "10", "light"},
             std::array{"use Shoulder prep: reps 10", "10", "light"},
             std::array{"use Shoulder prep: band heavy, 12 reps", "12", "heavy"},
             std::array{"use shoulder  PREP: Reps 12", "12", "light"},
             std::array{"use Shoulder prep: reps 6 to 8", "6 to 8", "light"},
         }) {
        const auto snapshot = analyse(used(use));
        EXPECT_EQ(problem_lines(snapshot), "") << use;
        EXPECT_EQ(program::dump(snapshot.program),
                  program::dump(analyse(written_out(reps, band)).program))
            << use;
    }
}

TEST(Routine, may_stand_behind_the_session_that_uses_it) {
    const auto snapshot =
        analyse("session: Loft\nuse Shoulder prep:\nsets:\nrow: 5 min\n" + shoulder_prep);
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(movements_of(snapshot), "pull-apart, wall slide | row");
}

TEST(Routine, may_come_from_an_included_file) {
    const auto snapshot =
        analyse_with({{"r.stave", shoulder_prep}},
                     "include: r.stave\nsession: Loft\nuse Shoulder prep:\nsets:\nrow: 5 min\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(movements_of(snapshot), "pull-apart, wall slide | row");
}

TEST(Routine, of_movements_alone_goes_into_the_block_it_is_used_in) {
    const auto snapshot = analyse(
        "routine Trunk: seconds 30 s\n  plank: [seconds]\n  side plank: 20 s each side\n"
        "session: Loft\nuse Trunk:\nsets:\n  row: 5 min\ncircuit: 2 rounds\n"
        "  use Trunk: seconds 45 s\n  wall sit: 40 s\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(movements_of(snapshot), "plank, side plank | row | plank, side plank, wall sit");
}

TEST(Routine, may_use_others) {
    const auto snapshot = analyse(
        "routine Inner: reps 5\n  squat: [reps]\n"
        "routine Outer: reps 6\n  sets:\n    use Inner: reps [reps]\n    row: 5 min\n"
        "session: Loft\nuse Outer: reps 9\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_TRUE(body_of(snapshot).contains("9 reps")) << body_of(snapshot);
}

TEST(Routine, that_uses_itself_is_refused) {
    const auto direct = analyse("routine A:\n  use A:\nsession: Loft\nuse A:\nsets:\nrow: 5 min\n");
    EXPECT_EQ(codes(direct), "routine-cycle");
    const auto in_turn = analyse(
        "routine A:\n  use B:\nroutine B:\n  use C:\nroutine C:\n  use A:\n"
        "session: Loft\nuse B:\nsets:\nrow: 5 min\n");
    ASSERT_EQ(codes(in_turn), "routine-cycle");
    EXPECT_EQ(place(in_turn), "B");
    EXPECT_EQ(in_turn.sink.sorted().front().related.size(), 1U);
}

TEST(Routine, may_be_twenty_deep_and_no_more) {
    const auto nested = [](std::size_t depth) {
        std::string text = "routine R0:\n  squat: 5\n";
        for (std::size_t i = 1; i < depth; ++i) {
            text += "routine R" + std::to_string(i) + ":\n  use R" + std::to_string(i - 1) + ":\n";
        }
        return text + "session: Loft\nsets:\nuse R" + std::to_string(depth - 1) + ":\n";
    };
    const auto deepest = analyse(nested(compose::deepest_use));
    EXPECT_EQ(problem_lines(deepest), "");
    EXPECT_EQ(movements_of(deepest), "squat");
    const auto deeper = analyse(nested(compose::deepest_use + 1));
    EXPECT_EQ(codes(deeper), "routine-too-long");
}

TEST(Routine, defined_twice_is_told_with_both_places) {
    const auto snapshot = analyse(
        "routine A:\n  squat: 5\nroutine a :\n  lunge: 5\n"
        "session: Loft\nsets:\n  use A:\n");
    ASSERT_EQ(codes(snapshot), "routine-twice");
    EXPECT_EQ(place(snapshot), "a");
    EXPECT_TRUE(problem_text(snapshot).contains("main.stave, line 1, column 9: the first one"))
        << problem_text(snapshot);
}

TEST(Routine, that_is_unknown_is_told_with_the_one_that_is_near) {
    const auto near = analyse(used("use Sholder prep: 10 reps"));
    ASSERT_EQ(codes(near), "routine-unknown");
    EXPECT_EQ(place(near), "Sholder prep");
    EXPECT_EQ(first_fix(near), "Shoulder prep");
    EXPECT_TRUE(problem_text(near).contains("Shoulder prep: if that is meant"));
    const auto far = analyse(used("use Wind down:"));
    ASSERT_EQ(codes(far), "routine-unknown");
    EXPECT_EQ(first_fix(far), "");
}

TEST(Routine, tells_a_blank_that_it_has_no_value_for) {
    const std::string text =
        "routine A: reps 8\n  squat: [reps] @ [load]\n"
        "session: Loft\nsets:\n  use A:\n  use A: 9 reps\n  use A: 10 reps\n";
    const auto snapshot = analyse(text);
    ASSERT_EQ(codes(snapshot), "routine-blank") << "once, however often it is used";
    EXPECT_EQ(place(snapshot), "[load]");
    EXPECT_TRUE(problem_lines(snapshot).contains("“[load]” is no blank of A"));
    EXPECT_EQ(codes(analyse("routine A:\n  squat: [reps]\nsession: Loft\nrow: 5 min\n")),
              "routine-blank")
        << "also where nobody uses it";
    EXPECT_EQ(codes(analyse("routine A: reps 8\n  squat: [reps\nsession: B\nsets:\n  use A:\n")),
              "routine-blank")
        << "never closed";
}

TEST(Routine, tells_an_argument_that_fills_no_blank) {
    const auto unknown = analyse(used("use Shoulder prep: 10 seconds"));
    ASSERT_EQ(codes(unknown), "routine-argument");
    EXPECT_EQ(place(unknown), "10 seconds");
    EXPECT_TRUE(problem_text(unknown).contains("reps, band"));
    EXPECT_EQ(codes(analyse(used("use Shoulder prep: 10"))), "routine-argument");
    EXPECT_EQ(codes(analyse(used("use Shoulder prep: 10 reps,, band heavy"))), "routine-argument");
    EXPECT_EQ(codes(analyse(used("use Shoulder prep: 10 reps, 12 reps"))), "routine-argument")
        << "a blank is filled once";
}

TEST(Routine, tells_a_blank_without_its_usual_value) {
    const auto snapshot =
        analyse("routine A: reps, band light\n  squat: 5\nsession: B\nsets:\nuse A:\n");
    ASSERT_EQ(codes(snapshot), "routine-parameter");
    EXPECT_EQ(place(snapshot), "reps");
}

TEST(Routine, places_problems_of_its_own_lines_where_they_are_written) {
    const auto snapshot = analyse("routine A:\n  squat: 5 x\nsession: B\nsets:\n  use A:\n");
    ASSERT_EQ(snapshot.sink.errors(), 1U);
    EXPECT_TRUE(problem_lines(snapshot).starts_with("main.stave:2:")) << problem_lines(snapshot);
}

TEST(Routine, shows_a_filled_line_with_the_use_that_filled_it) {
    const auto snapshot = analyse(
        "routine A: load 20 kg\n\n  squat: 3 x 5 @ [load]\n\n  lunge: [load]\n"
        "session: B\nsets:\n  row: 5 min\n  use A: load 60\n");
    ASSERT_EQ(codes(snapshot), "load-unit");
    EXPECT_EQ(place(snapshot), "60");
    EXPECT_TRUE(problem_lines(snapshot).starts_with("main.stave:3:3: error: "))
        << problem_lines(snapshot);
    EXPECT_TRUE(problem_text(snapshot).contains(
        "  main.stave, routine A as used in line 9, line 3, column 18\n"
        "  3 |   squat: 3 x 5 @ 60\n"
        "    |                  ^^\n"))
        << problem_text(snapshot);
    EXPECT_TRUE(problem_text(snapshot).contains("main.stave, line 9, column 7: used here"))
        << problem_text(snapshot);
    const auto json = nlohmann::json::parse(problem_json(snapshot));
    ASSERT_EQ(json.size(), 1U);
    EXPECT_EQ(json[0]["file"], "main.stave");
    EXPECT_EQ(json[0]["begin"]["line"], 3);
    EXPECT_EQ(json[0]["fixes"].size(), 0U);
    EXPECT_EQ(json[0]["related"][0]["file"], "main.stave");
    EXPECT_EQ(json[0]["related"][0]["begin"]["line"], 9);
}

TEST(Routine, nobody_uses_is_read_with_its_usual_values) {
    const auto right = analyse(shoulder_prep + "session: B\nrow: 5 min\n");
    EXPECT_EQ(problem_lines(right), "");
    const auto wrong =
        analyse("routine A: load 60 stone kg\n  squat: 3 x 5 @ [load]\nsession: B\nrow: 5 min\n");
    EXPECT_EQ(wrong.sink.errors(), 1U) << problem_lines(wrong);
}

TEST(Routine, tells_a_problem_once_however_often_it_is_used) {
    const auto snapshot = analyse(
        "routine A:\n  squat: 3 x 500\n"
        "session 1: B\nsets:\n  use A:\n  use A:\nsession 2: C\nsets:\n  use A:\n");
    EXPECT_EQ(codes(snapshot), "count-high");
}

TEST(Routine, lends_its_filled_lines_to_uses_with_the_same_values) {
    const auto snapshot =
        analyse(used("use Shoulder prep: 9 reps\nuse Shoulder prep: reps 9\nuse Shoulder prep:"));
    // The file, and one part for each of two sets of values.
    EXPECT_EQ(snapshot.source->parts().size(), 3U);
}

TEST(Routine, values_may_hold_brackets_without_being_filled_again) {
    const auto snapshot = analyse(
        "routine A: reps 8\n  squat: 5\n    cue: [reps] now\n"
        "session: B\nsets:\n  use A: [reps] reps\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_TRUE(body_of(snapshot).contains("[reps] now")) << body_of(snapshot);
}

TEST(Routine, is_ended_by_the_next_session_or_definition) {
    const auto snapshot = analyse(
        "routine A:\n  squat: 5\nmovement oar press:\n  counted in: reps\n"
        "session: B\nsets:\n  use A:\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(snapshot.program.movements.size(), 1U);
    EXPECT_EQ(movements_of(snapshot), "squat");
}

TEST(Routine, used_without_a_name_or_opened_without_one_is_one_problem) {
    EXPECT_EQ(analyse("routine:\n  squat: 5\nsession: B\nrow: 5 min\n").sink.errors(), 1U);
    EXPECT_EQ(analyse("session: B\nuse:\nrow: 5 min\n").sink.errors(), 1U);
}

TEST(Routine, near_by_guess_alone_is_no_mend) {
    const auto fix_of = [](const std::string& text) {
        const auto snapshot = analyse(text);
        EXPECT_TRUE(codes(snapshot).contains("routine-unknown")) << text << codes(snapshot);
        for (const Diagnostic& problem : snapshot.sink.sorted()) {
            if (problem.code == Code::routine_unknown && !problem.fixes.empty()) {
                return problem.fixes.front().label;
            }
        }
        return std::string();
    };
    const std::string session = "session: Loft\nsets:\n  row: 5 min\n";
    EXPECT_EQ(fix_of("routine A:\n  squat: 5\n" + session + "  use C:\n"), "") << "short";
    EXPECT_EQ(fix_of("routine Part 1:\n  squat: 5\n" + session + "  use Part 2:\n"), "")
        << "another number";
    EXPECT_EQ(fix_of("routine Party:\n  squat: 5\nroutine Parts:\n  squat: 5\n" + session +
                     "  use Parta:\n"),
              "")
        << "two are as near";
    EXPECT_EQ(fix_of("routine Trunk:\n  use Trunks:\n" + session + "  use Trunk:\n"), "")
        << "itself";
    EXPECT_EQ(fix_of("routine Trunk:\n  squat: 5\nrotine Trunks:\n  squat: 5\n" + session +
                     "  use Trunks:\n"),
              "")
        << "the right one is misspelt";
    EXPECT_EQ(fix_of("routine Trunk:\n  squat: 5\n" + session + "  use Trunks:\n"), "Trunk");
}

TEST(Routine, reads_commas_and_blanks_of_every_form) {
    for (const char* use : {"use Shoulder prep: 10 reps\uFF0Cband heavy",
                            "use Shoulder prep: reps\t10\u3001band heavy",
                            "use Shoulder prep: reps\u00A010, heavy\u00A0band"}) {
        const auto snapshot = analyse(used(use));
        EXPECT_EQ(problem_lines(snapshot), "") << use;
        EXPECT_EQ(program::dump(snapshot.program),
                  program::dump(analyse(written_out("10", "heavy")).program))
            << use;
    }
    const auto own = analyse(
        "routine A: reps\u00A08\uFF0Cband\tlight\n  squat: [reps] @ band [band]\n"
        "session: B\nsets:\n  use A:\n");
    EXPECT_EQ(problem_lines(own), "");
}

TEST(Routine, tells_a_blank_that_is_named_twice) {
    const auto snapshot =
        analyse("routine A: reps 8, Reps 9\n  squat: [reps]\nsession: B\nsets:\n  use A:\n");
    ASSERT_EQ(codes(snapshot), "routine-parameter-twice");
    EXPECT_EQ(place(snapshot), "Reps 9");
}

TEST(Routine, tells_that_a_blank_has_a_name_of_one_word) {
    const auto snapshot =
        analyse("routine A: rep count 8\n  squat: [rep count]\nsession: B\nsets:\n  use A:\n");
    ASSERT_EQ(codes(snapshot), "routine-blank");
    EXPECT_TRUE(problem_text(snapshot).contains("a name of one word"));
}

TEST(Routine, nobody_uses_is_read_to_the_end) {
    const auto problems = [](const std::string& lines) {
        return codes(analyse("routine A: load 60 to 50 kg\n" + lines + "session: B\nrow: 5 min\n"));
    };
    EXPECT_EQ(problems("  use Absent:\n"), "routine-unknown");
    EXPECT_EQ(problems("  use A:\n"), "routine-cycle");
    EXPECT_EQ(problems("  counted in: reps\n"), "line-not-here");
    EXPECT_EQ(problems("  weeks: 8\n"), "line-not-here");
    EXPECT_EQ(problems("  squat: 3 x 5 @ [load]\n"), "range-falls");
    EXPECT_EQ(problems("  place: Loft\n  cue: tall\n  rest: 60 s\n  or squat: 5\n"), "");
}

}  // namespace
}  // namespace stave::tests
