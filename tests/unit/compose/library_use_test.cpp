// What a file takes from the movement library.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/unit/compose/composing.hpp"

namespace stave::tests {
namespace {

// The definitions that the program knows, "push-up (library), oar press".
std::string definitions_of(const analysis::Snapshot& snapshot) {
    std::string text;
    for (const program::MovementDefinition& movement : snapshot.program.movements) {
        text += (text.empty() ? "" : ", ") + movement.name;
        text += movement.from_library ? " (library)" : "";
    }
    return text;
}

analysis::Snapshot session_of(const std::string& lines, const std::string& before = "") {
    return analyse_with_library(before + "session: Loft\nsets:\n" + lines);
}

TEST(LibraryUse, brings_a_movement_under_each_of_its_names_once) {
    const auto snapshot = session_of("  push-up: 8\n  press-up: 8\n  Push-Ups: 8\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(definitions_of(snapshot), "push-up (library)");
}

TEST(LibraryUse, brings_nothing_that_is_not_named) {
    EXPECT_EQ(definitions_of(session_of("  row the skiff: 5 min\n")), "");
}

TEST(LibraryUse, reaches_joined_names_substitutes_and_lines_with_do) {
    const auto snapshot =
        session_of("  squat + push-up: 5 + 5\n  do deadlift: 8 @ 60 kg\n    or plank: 30 s\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(definitions_of(snapshot),
              "squat (library), push-up (library), deadlift (library), plank (library)");
}

TEST(LibraryUse, reaches_lines_of_routines_and_bases) {
    const auto snapshot = analyse_with_library(
        "routine Arms: reps 8\n  push-up: [reps]\n"
        "session 1: A\nsets:\n  use Arms:\nsession 2: B\nbased on: session 1\n"
        "sets:\n  deadlift: 5 @ 60 kg\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(definitions_of(snapshot), "push-up (library), deadlift (library)");
}

TEST(LibraryUse, gives_way_to_the_files_own_definition) {
    const std::string own = "movement Push-up:\n  counted in: reps\n  cue: our own\n\n";
    const auto snapshot = session_of("  push-up: 8\n", own);
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(definitions_of(snapshot), "Push-up");
    // What the library calls by another name is not what the file defines; it asks.
    const auto other = session_of("  press-up: 8\n", own);
    EXPECT_EQ(codes(other), "near-movement");
    EXPECT_EQ(first_fix(other), "push-up");
    EXPECT_EQ(definitions_of(other), "Push-up");
}

TEST(LibraryUse, gives_way_to_a_definition_that_takes_one_of_its_names) {
    const std::string own = "movement deck press:\n  also: push-up\n  counted in: reps\n\n";
    const auto same = session_of("  push-up: 8\n", own);
    EXPECT_EQ(problem_lines(same), "");
    EXPECT_EQ(definitions_of(same), "deck press");
    const auto other = session_of("  push-up: 8\n  press-up: 8\n", own);
    EXPECT_FALSE(other.sink.has_errors()) << problem_lines(other);
}

TEST(LibraryUse, warns_of_names_that_are_a_slip_away) {
    const auto snapshot = session_of("  puhs-up: 8\n  romanian deadlfit: 8 @ 40 kg\n");
    ASSERT_EQ(codes(snapshot), "near-movement near-movement") << problem_lines(snapshot);
    EXPECT_EQ(place(snapshot, 0), "puhs-up");
    EXPECT_EQ(first_fix(snapshot, 0), "push-up");
    EXPECT_EQ(first_fix(snapshot, 1), "Romanian deadlift");
}

TEST(LibraryUse, notes_each_unknown_name_once) {
    const auto snapshot =
        session_of("  skiff haul: 5\n  Skiff Haul: 5\n  skiff haul + rope climb over: 5 + 5\n");
    EXPECT_EQ(codes(snapshot), "movement-unknown movement-unknown") << problem_lines(snapshot);
}

TEST(LibraryUse, says_which_known_movement_an_unknown_name_speaks_of) {
    const auto known = [](const std::string& name) {
        const auto snapshot = session_of("  " + name + ": 8\n");
        EXPECT_EQ(codes(snapshot), "movement-unknown") << name;
        EXPECT_EQ(first_fix(snapshot), "") << "two things may be meant";
        const std::string said = mend(snapshot.sink.sorted().at(0));
        const std::size_t begin = said.find("though ");
        if (begin == std::string::npos) return std::string();
        return said.substr(begin + 7, said.find(" is known") - begin - 7);
    };
    EXPECT_EQ(known("paused bench press"), "bench press");
    EXPECT_EQ(known("deficit push-up"), "push-up");
    EXPECT_EQ(known("bench press from blocks"), "bench press");
    EXPECT_EQ(known("one-arm yoke row"), "single-arm row") << "of which one-arm row is a name";
    EXPECT_EQ(known("skiff haul"), "");
    EXPECT_EQ(known("lantern lift"), "") << "short names mean too much";
    EXPECT_EQ(known("a name of rather too many words for a push-up"), "");
    // The file's own names count as well.
    const auto own = session_of("  oar press: 8\n  slow oar press: 8\n",
                                "movement oar press:\n  counted in: reps\n\n");
    EXPECT_TRUE(problem_text(own).contains("though oar press is known")) << problem_text(own);
}

TEST(LibraryUse, notes_a_name_in_the_session_that_does_not_allow_it) {
    for (const char* line : {"skiff haul: 5\n", "puhs-up: 5\n"}) {
        const std::string code = line[0] == 's' ? "movement-unknown" : "near-movement";
        const std::string allow = "allow: " + code + ", everybody here knows it\n";
        const auto snapshot =
            analyse_with_library(fmt::format("session 1: A\n{0}{1}{1}session 2: B\n{1}{1}"
                                             "session 3: C\n{0}{1}",
                                             allow, line));
        ASSERT_EQ(codes(snapshot), code) << problem_lines(snapshot);
        const std::uint32_t begin = snapshot.sink.sorted()[0].span.begin;
        EXPECT_EQ(snapshot.source->position(begin).line, 6U);
    }
}

TEST(LibraryUse, says_nothing_of_games) {
    const auto snapshot = session_of("  game crab football: 5 min\n");
    EXPECT_EQ(problem_lines(snapshot), "");
}

TEST(LibraryUse, says_nothing_where_there_is_no_library) {
    const auto snapshot =
        analysis::analyse("main.stave", "session: A\nsets:\n  skiff haul: 5\n", {});
    EXPECT_EQ(problem_lines(snapshot), "");
}

TEST(LibraryUse, does_not_speak_of_the_librarys_own_lines) {
    // Both movements name others as easier and harder; none of those is taken in.
    const auto snapshot = session_of("  handstand hold: 20 s\n  chin-up: 3\n");
    for (const auto& problem : snapshot.sink.sorted())
        EXPECT_EQ(snapshot.source->part_at(problem.span.begin), 0U) << problem_lines(snapshot);
}

TEST(LibraryUse, leaves_the_first_lines_of_a_file_to_the_file) {
    const auto snapshot = analyse_with_library("counted in: reps\nsession: A\npush-up: 8\n");
    EXPECT_TRUE(codes(snapshot).contains("line-not-here")) << codes(snapshot);
    EXPECT_EQ(place(snapshot), "counted in");
}

TEST(LibraryUse, does_not_look_for_names_behind_a_wide_comma) {
    const auto snapshot = analyse_with_library(
        "movement bar squat:\n  counted in: reps\n  also: back squat\uFF0Cpush-up\n"
        "session: A\npush-up: 8\n");
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(snapshot.program.movements.size(), 1U);
}

}  // namespace
}  // namespace stave::tests
