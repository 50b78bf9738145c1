// Files that take in others.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/unit/compose/composing.hpp"

namespace stave::tests {
namespace {

const std::string oar_press =
    "movement oar press:\n"
    "  counted in: reps\n"
    "  also: oar lift\n";

const std::string use_oar_press =
    "session: Loft\n"
    "sets:\n"
    "  oar lift: 3 x 8\n";

// A path through folders, each file taking in the next: "a/0.stave", "a/1.stave" ...
Shelf chain(std::size_t length) {
    Shelf shelf;
    for (std::size_t i = 0; i < length; ++i) {
        shelf["a/" + std::to_string(i) + ".stave"] =
            i + 1 < length ? "include: " + std::to_string(i + 1) + ".stave\n" : oar_press;
    }
    return shelf;
}

TEST(Include, takes_definitions_over) {
    const Shelf shelf{{"kit/loft.stave", oar_press}};
    const auto snapshot = analyse_with(shelf, "include: kit/loft.stave\n" + use_oar_press);
    EXPECT_EQ(problem_lines(snapshot), "");
    ASSERT_EQ(snapshot.program.movements.size(), 1U);
    EXPECT_EQ(snapshot.program.movements.front().name, "oar press");
}

// Its sessions belong to its own file too.
TEST(Include, leaves_plans_to_their_file) {
    const Shelf shelf{{"crew.stave", oar_press + use_oar_press +
                                         "plan Autumn:\n  from: 2026-11-30\n  weeks: 2\n"
                                         "  Monday: 18:30, Loft\n"}};
    const auto snapshot = analyse_with(shelf, "include: crew.stave\nsession: Deck\noar press: 5\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_TRUE(snapshot.program.plans.empty());
    EXPECT_EQ(snapshot.program.sessions.size(), 1U);
}

TEST(Include, counts_paths_from_the_file_that_names_them) {
    const Shelf shelf{{"kit/all.stave", "include: more/oars.stave\ninclude: ../top.stave\n"},
                      {"kit/more/oars.stave", oar_press},
                      {"top.stave", "movement bow pull:\n  counted in: reps\n"}};
    const auto snapshot = analyse_with(shelf, "include: kit/all.stave\n" + use_oar_press);
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(snapshot.program.movements.size(), 2U);
}

TEST(Include, takes_every_file_in_once) {
    const Shelf shelf{{"a.stave", "include: c.stave\n"},
                      {"b.stave", "include: ./c.stave\n"},
                      {"c.stave", oar_press}};
    const auto snapshot = analyse_with(
        shelf, "include: a.stave\ninclude: b.stave\ninclude: c.stave\n" + use_oar_press);
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(snapshot.program.movements.size(), 1U);
    EXPECT_EQ(snapshot.source->parts().size(), 4U);
}

TEST(Include, refuses_a_file_that_takes_itself_in) {
    const auto direct = analyse_with({}, "include: main.stave\nsession: A\nrow: 5 min\n");
    EXPECT_EQ(codes(direct), "include-missing") << "the shelf has no main.stave";
    const Shelf shelf{
        {"main.stave", ""}, {"a.stave", "include: b.stave\n"}, {"b.stave", "include: a.stave\n"}};
    const auto itself = analyse_with(shelf, "include: main.stave\nsession: A\nrow: 5 min\n");
    EXPECT_EQ(problem_lines(itself),
              "main.stave:1:10: error: “main.stave” takes itself in: main.stave takes in "
              "main.stave. [include-cycle]\n");
    const auto others = analyse_with(shelf, "include: a.stave\nsession: A\nrow: 5 min\n");
    EXPECT_EQ(problem_lines(others),
              "b.stave:1:10: error: “a.stave” takes itself in: a.stave takes in b.stave takes in "
              "a.stave. [include-cycle]\n");
}

TEST(Include, refuses_more_than_twenty_files_inside_each_other) {
    const std::string text = "include: a/0.stave\n" + use_oar_press;
    const auto deepest = analyse_with(chain(compose::deepest_include), text);
    EXPECT_EQ(problem_lines(deepest), "");
    const auto deeper = analyse_with(chain(compose::deepest_include + 1), text);
    EXPECT_EQ(codes(deeper), "include-too-much");
    EXPECT_EQ(deeper.source->path(deeper.sink.sorted().front().span.begin), "a/19.stave");
}

TEST(Include, reports_a_chain_of_a_thousand_files_once) {
    const auto snapshot = analyse_with(chain(1000), "include: a/0.stave\n" + use_oar_press);
    EXPECT_EQ(codes(snapshot), "include-too-much");
}

TEST(Include, takes_in_a_thousand_files_and_no_more) {
    Shelf shelf;
    std::string text;
    for (std::size_t i = 0; i < compose::most_includes; ++i) {
        const std::string name = std::to_string(i) + ".stave";
        shelf[name] = "movement m" + std::to_string(i) + ":\n  counted in: reps\n";
        text += "include: " + name + '\n';
    }
    shelf["more.stave"] = shelf["again.stave"] = "movement m:\n  counted in: reps\n";
    const std::string session = "session: A\nm7: 3 x 8\n";
    const auto most = analyse_with(shelf, text + session);
    EXPECT_EQ(problem_lines(most), "");
    EXPECT_EQ(most.program.movements.size(), compose::most_includes);
    const auto more =
        analyse_with(shelf, text + "include: more.stave\ninclude: again.stave\n" + session);
    EXPECT_EQ(codes(more), "include-too-much");
    EXPECT_EQ(place(more), "more.stave");
}

TEST(Include, refuses_more_than_the_files_together_may_hold) {
    Shelf shelf;
    std::string text;
    for (const char* name : {"a", "b", "c", "d", "e"}) {
        shelf[name] = std::string(SourceFile::largest - 100, '\n');
        shelf[name].replace(0, 1, "#");
        text += std::string("include: ") + name + '\n';
    }
    // Lines are bounded too, so one long remark stands for them.
    for (auto& [name, content] : shelf)
        content.assign(content.size(), ' ');
    const auto snapshot = analyse_with(shelf, text + "session: A\nrow: 5 min\n");
    EXPECT_TRUE(codes(snapshot).contains("include-too-much")) << problem_lines(snapshot);
}

TEST(Include, says_why_a_file_cannot_be_taken_in) {
    const auto missing = analyse_with({}, "include: kit/loft.stave\nsession: A\nrow: 5 min\n");
    EXPECT_EQ(problem_lines(missing),
              "main.stave:1:10: error: “kit/loft.stave” cannot be taken in: there is none. "
              "[include-missing]\n");
    const auto alone = analysis::analyse("main.stave", "include: a\nsession: A\nrow: 5 min\n", {});
    EXPECT_EQ(problem_lines(alone),
              "main.stave:1:10: error: “a” cannot be taken in: files cannot be read here. "
              "[include-missing]\n");
}

TEST(Include, says_nothing_of_names_that_a_missing_file_was_to_give) {
    const auto snapshot = analyse_with({{"pulls.stave", oar_press}},
                                       "include: pulls.stave\ninclude: loft.stave\n"
                                       "session: A\nbased on: B\nsession: C\n"
                                       "oar lift: 8\ncircuit:\nuse Ladder:\n");
    EXPECT_EQ(codes(snapshot), "include-missing") << problem_lines(snapshot);
}

TEST(Include, says_where_a_file_that_is_no_text_stops_being_one) {
    const Shelf shelf{{"a.stave", "movement oar press:\n  cue: \xff\n"}};
    const auto snapshot = analyse_with(shelf, "include: a.stave\nsession: A\nrow: 5 min\n");
    ASSERT_EQ(codes(snapshot), "not-utf8");
    EXPECT_TRUE(problem_lines(snapshot).starts_with("a.stave:2:8: error: "))
        << problem_lines(snapshot);
}

TEST(Include, places_problems_in_the_file_they_are_in) {
    const Shelf shelf{
        {"kit/loft.stave", "\n# The loft.\nmovement oar press:\n  counted in: oars\n"}};
    const auto snapshot = analyse_with(shelf, "include: kit/loft.stave\n" + use_oar_press);
    ASSERT_EQ(snapshot.sink.errors(), 1U);
    EXPECT_TRUE(problem_lines(snapshot).starts_with("kit/loft.stave:4:15: error: "))
        << problem_lines(snapshot);
    EXPECT_TRUE(
        problem_text(snapshot).contains("  kit/loft.stave, line 4, column 15\n"
                                        "  4 |   counted in: oars\n"
                                        "    |               ^^^^\n"))
        << problem_text(snapshot);
    const auto json = nlohmann::json::parse(problem_json(snapshot));
    ASSERT_EQ(json.size(), 1U);
    EXPECT_EQ(json[0]["file"], "kit/loft.stave");
    EXPECT_EQ(json[0]["begin"]["line"], 4);
    EXPECT_EQ(json[0]["begin"]["column"], 15);
    // A byte of that file, not of all together.
    EXPECT_EQ(json[0]["begin"]["offset"], 47);
}

TEST(Include, places_problems_behind_a_byte_order_mark_and_foreign_line_ends) {
    const Shelf shelf{{"a.stave", "\xEF\xBB\xBFmovement oar press:\r\n  counted in: oars\r\n"}};
    const auto snapshot = analyse_with(shelf, "include: a.stave\n" + use_oar_press);
    EXPECT_TRUE(problem_lines(snapshot).starts_with("a.stave:2:15: error: "))
        << problem_lines(snapshot);
}

TEST(Include, places_the_other_half_of_a_problem_in_its_own_file) {
    const Shelf shelf{{"a.stave", oar_press}, {"b.stave", "\n" + oar_press}};
    const auto snapshot =
        analyse_with(shelf, "include: a.stave\ninclude: b.stave\n" + use_oar_press);
    ASSERT_TRUE(snapshot.sink.has_errors());
    EXPECT_TRUE(problem_lines(snapshot).starts_with("b.stave:2:")) << problem_lines(snapshot);
    EXPECT_TRUE(problem_text(snapshot).contains("  a.stave, line 1, column "))
        << problem_text(snapshot);
}

TEST(Include, stands_before_the_first_session) {
    const Shelf shelf{{"a.stave", oar_press}};
    const auto snapshot = analyse_with(shelf, use_oar_press + "include: a.stave\n");
    EXPECT_EQ(codes(snapshot), "line-not-here");
    EXPECT_EQ(place(snapshot), "include");
}

TEST(Include, makes_no_cards_of_the_sessions_it_brings) {
    const Shelf shelf{{"a.stave", "session 8: Other\nrow: 5 min\n" + oar_press}};
    const auto snapshot = analyse_with(shelf, "include: a.stave\n" + use_oar_press);
    EXPECT_EQ(problem_lines(snapshot), "");
    ASSERT_EQ(snapshot.program.sessions.size(), 1U);
    EXPECT_EQ(snapshot.program.sessions.front().title, "Loft");
    EXPECT_EQ(snapshot.program.movements.size(), 1U);
}

TEST(Include, of_a_file_without_its_last_line_end_or_of_an_empty_one_changes_nothing) {
    const Shelf shelf{{"a.stave", "movement oar press:\n  also: oar lift"}, {"b.stave", ""}};
    const auto snapshot =
        analyse_with(shelf, "include: a.stave\ninclude: b.stave\n" + use_oar_press);
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(snapshot.program.movements.size(), 1U);
}

TEST(Include, ends_what_the_file_leaves_open) {
    const std::string own = "session 2: B\nsquat: 5\n";
    for (const char* last : {"routine Prep:\n  lunge: 5\n", "session 1: A\nrow: 5 min\n",
                             "movement oar press:\n  counted in: reps\n", "kit Loft: chair\n"}) {
        const Shelf shelf{{"a.stave", last}};
        const std::string before = codes(analyse_with(shelf, "include: a.stave\n" + own));
        const auto allowing =
            analyse_with(shelf, "include: a.stave\nallow: count-high, a charity evening\n" + own +
                                    "lunge: 3 x 500\n");
        EXPECT_EQ(codes(allowing), before) << last;
        const auto loose = analyse_with(shelf, "include: a.stave\nplank: 40 s\n" + own);
        EXPECT_TRUE(
            problem_lines(loose).contains("main.stave:2:1: error: No session has begun here"))
            << last << problem_lines(loose);
    }
}

TEST(Include, begins_on_its_own) {
    const Shelf shelf{{"a.stave", "counted in: reps\n"}};
    const auto snapshot =
        analyse_with(shelf, "movement oar press:\ninclude: a.stave\nsession: A\noar press: 8\n");
    EXPECT_TRUE(codes(snapshot).contains("line-not-here")) << codes(snapshot);
    EXPECT_EQ(place(snapshot), "counted in");
}

TEST(Include, has_no_place_in_a_routine) {
    const auto snapshot = analyse_with({{"a.stave", oar_press}},
                                       "routine Prep:\n  squat: 5\n  include: a.stave\n  lunge: 5\n"
                                       "session: A\nsets:\n  use Prep:\n");
    ASSERT_EQ(codes(snapshot), "line-not-here");
    EXPECT_EQ(place(snapshot), "include");
    EXPECT_TRUE(problem_text(snapshot).contains("above the first routine"));
    EXPECT_EQ(movements_of(snapshot), "squat, lunge");
}

TEST(Include, without_a_path_is_one_problem) {
    EXPECT_EQ(codes(analyse_with({}, "include:\nsession: A\nrow: 5 min\n")), "text-missing");
    EXPECT_EQ(codes(analyse_with({}, "include:\n")), "text-missing");
}

}  // namespace
}  // namespace stave::tests
