// What becomes of blanks, remarks, indents and columns.
#include <gtest/gtest.h>

#include "tests/unit/format/formatted.hpp"

namespace stave::tests {
namespace {

std::string layout(const std::string& text) {
    const Formatted result = formatted(text);
    EXPECT_EQ(result.problems, "");
    EXPECT_EQ(formatted(result.text).text, result.text) << "formats to itself";
    return result.text;
}

TEST(Layout, indents_by_what_a_line_belongs_to) {
    EXPECT_EQ(layout("session: A\n"
                     "      stop: sharp pain\n"
                     "sets Haul: rest 2 min\n"
                     "note: the long bar\n"
                     "deadlift: 4 x 5 @ 60 kg\n"
                     "cue: bar close\n"
                     "or swing: 15\n"
                     "rest: 90 s\n"
                     "chin-up: 3 x max\n"),
              "session: A\n"
              "stop: sharp pain\n"
              "sets Haul: rest 2 min\n"
              "  note: the long bar\n"
              "  deadlift: 4 x 5 @ 60 kg\n"
              "    cue: bar close\n"
              "    or swing: 15\n"
              "    rest: 90 s\n"
              "  chin-up:  3 x max\n");
}

TEST(Layout, leaves_movements_of_a_session_without_blocks_at_the_margin) {
    EXPECT_EQ(layout("session: A\n  squat: 5\n  cue: tall\n"),
              "session: A\nsquat: 5\n  cue: tall\n");
}

TEST(Layout, indents_definitions_and_routines) {
    EXPECT_EQ(
        layout("movement oar press:\ncounted in: reps\ncue: ribs down\n"
               "routine Prep: reps 8,band light\nwarm-up:\npull-apart: [reps]   @ band [band]\n"
               "cue: slow\nsession: A\nuse Prep: 10 reps\nsets:\nuse Prep:\n"),
        "movement oar press:\n  counted in: reps\n  cue: ribs down\n"
        "routine Prep: reps 8, band light\n  warm-up:\n"
        "    pull-apart: [reps] @ band [band]\n      cue: slow\n"
        "session: A\nuse Prep: 10 reps\nsets:\n  use Prep:\n");
}

TEST(Layout, aligns_amounts_of_neighbours_and_no_others) {
    EXPECT_EQ(layout("session: A\nsets:\n  squat: 5\n    cue: tall\n  bench press: 3\n\n"
                     "  row: 500 m\n  # Last.\n  lunge: 5\n"),
              "session: A\nsets:\n  squat:       5\n    cue: tall\n  bench press: 3\n\n"
              "  row: 500 m\n  # Last.\n  lunge: 5\n");
}

TEST(Layout, aligns_nothing_beside_a_much_longer_name) {
    const std::string text =
        "session: A\nsets:\n  row: 5 min\n"
        "  single-leg Romanian deadlift with a reach: 8 each leg\n";
    EXPECT_EQ(layout(text), text);
}

TEST(Layout, aligns_names_of_any_script_by_columns) {
    EXPECT_EQ(layout("session: A\nsets:\n  приседания: 3 x 8\n  жим: 5\n"),
              "session: A\nsets:\n  приседания: 3 x 8\n  жим:        5\n");
}

TEST(Layout, keeps_one_blank_line_where_there_are_some) {
    EXPECT_EQ(layout("\n\nsession: A\n\n\n   \n\t\nsquat: 5\n\n\n"), "session: A\n\nsquat: 5\n");
}

TEST(Layout, keeps_remarks_with_the_line_they_stand_above_or_behind) {
    EXPECT_EQ(
        layout("# The file.\n\nsession: A # first\nsets:\n# Of the squat.\nsquat: 5 # low bar\n"
               "bench press: 5   # pause\n      # The end.\n"),
        "# The file.\n\nsession: A   # first\nsets:\n  # Of the squat.\n"
        "  squat:       5   # low bar\n  bench press: 5   # pause\n# The end.\n");
}

TEST(Layout, keeps_what_looks_like_a_remark_and_is_none) {
    const std::string text = "session: A\nsets:\n  squat: 5\n    cue: be #1, not C#\n";
    EXPECT_EQ(layout(text), text);
}

TEST(Layout, squeezes_blanks_and_keeps_names_as_they_are_typed) {
    EXPECT_EQ(
        layout("session   7 :  Slack \t water\nsets:\n  Bulgarian   split  Squat :3x8 each leg\n"),
        "session 7: Slack water\nsets:\n  Bulgarian split Squat: 3 x 8 each leg\n");
}

TEST(Layout, ends_lines_with_one_kind_of_end_and_no_mark_before_them) {
    const std::string expected = "session: A\nsets:\n  squat: 5\n";
    EXPECT_EQ(layout("\xEF\xBB\xBFsession: A\r\nsets:\r\nsquat: 5\r\n"), expected);
    EXPECT_EQ(layout("session: A\rsets:\rsquat: 5"), expected);
    EXPECT_EQ(layout("session: A  \nsets:\t\n  squat: 5 \n"), expected);
}

TEST(Layout, keeps_where_a_load_is_held_before_what_is_added_to_it) {
    for (const char* load : {"60 kg overhead plus 5 kg", "16 kg left minus 4 kg",
                             "1.5 x bodyweight overhead plus 5 kg", "band blue plus 5 kg"}) {
        const std::string text = "session: A\nsquat: 5 @ " + std::string(load) + "\n";
        EXPECT_EQ(layout(text), text);
    }
}

TEST(Layout, of_nothing_is_nothing) {
    EXPECT_EQ(layout(""), "");
    EXPECT_EQ(layout("\n \n"), "");
    EXPECT_EQ(layout("# Only a remark.\n"), "# Only a remark.\n");
}

TEST(Layout, of_a_broken_text_is_none) {
    const Formatted result = formatted("session: A\nsquat: 5 x\n");
    EXPECT_EQ(result.text, "");
    EXPECT_NE(result.problems, "");
}

TEST(Layout, drops_do_only_where_the_name_alone_is_a_movement) {
    EXPECT_EQ(layout("session: A\ndo squat: 5\n"), "session: A\nsquat: 5\n");
    for (const char* name : {"circuit breaker", "warm-up walk", "rests"}) {
        const std::string text = "session: A\ndo " + std::string(name) + ": 5\n";
        EXPECT_EQ(layout(text), text);
    }
}

TEST(Layout, loses_nothing_of_lines_that_are_read_for_form_only) {
    const std::string text = "plan Autumn:\n  grow row: 2.5 kg of max each week, up to 80 kg\n";
    EXPECT_EQ(layout(text), text);
}

TEST(Layout, writes_numbers_without_an_end_as_fractions) {
    const std::string share = "session: A\nsquat: 5 @ 2/3 x bodyweight\n";
    EXPECT_EQ(layout(share), share);
    const std::string text = "session: A\nrun: 1 h 1/3 min\n";
    EXPECT_EQ(layout(text), text);
}

TEST(Layout, keeps_fractions_of_an_arc) {
    const std::string text = "session: A\nelbow bend: 8, arc 1 1/2 to 45 deg\n";
    EXPECT_EQ(layout(text), text);
}

TEST(Layout, keeps_do_before_a_blank_that_may_become_anything) {
    const std::string text = "routine Prep: what\n  do [what]: 8\n";
    EXPECT_EQ(layout(text), text);
}

TEST(Layout, keeps_do_where_the_name_alone_would_be_refused) {
    for (const char* line :
         {"do 1. press: 5", "do AMRAP 8 min: 3", "do - press: 4", "do circut legs:"}) {
        const std::string text =
            "session: A\nstations: 40 s on, 20 s off, 1 round\n  " + std::string(line) + '\n';
        EXPECT_EQ(layout(text), text);
    }
}

TEST(Layout, keeps_names_of_files_and_reasons_as_they_are_typed) {
    const std::string text =
        "include: my  kit.stave\nallow: count-high, 1,000 reps are meant\n"
        "kit Loft: bar 20 kg\ninclude: more.stave\nallow: list-jump, meant\n";
    EXPECT_EQ(layout(text), text);
}

TEST(Layout, makes_no_remark_of_a_sign_that_is_none) {
    for (const char* line :
         {"for: Mara,# Jonas", "for: Mara,#", "options: a,# b", "a +# b: 3 + 3",
          "squat: 8\nfault: hips sag ->#  tight belly", "squat: 8\nnote: be#  quick"}) {
        const Formatted before = formatted("session: A\n" + std::string(line) + '\n');
        EXPECT_EQ(formatted(layout("session: A\n" + std::string(line) + '\n')).meaning,
                  before.meaning)
            << line;
    }
    EXPECT_NE(formatted("session: A\nsquat: 8\nnote\uFF1A# later\n").problems, "")
        << "a remark, as behind a plain colon";
}

TEST(Layout, aligns_no_remark_beside_a_much_longer_line) {
    const std::string long_line = "  squat: 5, hold 2 s at the very lowest point there ever was";
    EXPECT_EQ(layout("session: A\nsets:   # all\nrow: 5 min # easy\n" + long_line +
                     " # deep\n    cue: tall # to the lamp\n"),
              "session: A\nsets:            # all\n  row:   5 min   # easy\n" + long_line +
                  "   # deep\n    cue: tall   # to the lamp\n");
}

TEST(Layout, of_remarks_grows_by_no_more_than_its_gaps) {
    std::string text = "session: A\nsets:\n";
    std::size_t lines = 0;
    for (int i = 0; i < 200; ++i, lines += 2) {
        text += "  row: 5 min   # easy\n    note: " + std::string(1500, 'x') + "   # long\n";
    }
    EXPECT_LE(layout(text).size(), text.size() + 24 * lines);
}

}  // namespace
}  // namespace stave::tests
