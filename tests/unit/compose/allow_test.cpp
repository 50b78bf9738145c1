// Problems that the coach lets stand.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/unit/compose/composing.hpp"

namespace stave::tests {
namespace {

analysis::Snapshot analyse(std::string text) {
    return analyse_with({}, std::move(text));
}

const std::string high = "squat: 3 x 500\n";

TEST(Allow, before_the_first_session_holds_for_the_whole_file) {
    const auto snapshot = analyse("allow: count-high, a charity evening\nsession 1: A\n" + high +
                                  "session 2: B\n" + high);
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_FALSE(snapshot.sink.has_warnings());
}

TEST(Allow, in_a_session_holds_for_its_lines) {
    // The file's first line of all is a session's head too.
    for (const char* before : {"", "\n", "# A remark.\n"}) {
        const auto first =
            analyse(fmt::format("{}session 1: A\nallow: count-high, a charity evening\n{}"
                                "session 2: B\n{}",
                                before, high, high));
        ASSERT_EQ(codes(first), "count-high") << before;
        EXPECT_GT(first.sink.sorted()[0].span.begin, 70U);
    }
    const auto second = analyse("session 1: A\n" + high + "session 2: B\n" +
                                "allow: count-high, a charity evening\n" + high);
    ASSERT_EQ(codes(second), "count-high");
    EXPECT_LT(second.sink.sorted()[0].span.begin, 28U);
    EXPECT_TRUE(second.sink.has_warnings());
}

TEST(Allow, holds_for_lines_that_come_from_elsewhere) {
    const auto routine = analyse(
        "routine Legs: reps 500\n  squat: 3 x [reps]\n"
        "session 1: A\nallow: count-high, a charity evening\nsets:\n  use Legs:\n");
    EXPECT_EQ(problem_lines(routine), "");
    const auto base = analyse_with({{"old.stave", "session 1: A\n" + high}},
                                   "include: old.stave\nsession 2: B\nbased on: session 1\n"
                                   "allow: count-high, a charity evening\n");
    EXPECT_EQ(problem_lines(base), "");
}

TEST(Allow, of_an_included_file_holds_for_that_file) {
    const std::string own = "allow: count-high, theirs\n";
    const auto snapshot = analyse_with(
        {{"old.stave", own + "session 1: A\n" + high}},
        "include: old.stave\nsession 3: C\n" + high + "session 2: B\nbased on: session 1\n");
    ASSERT_EQ(codes(snapshot), "count-high");
    EXPECT_EQ(snapshot.source->part_at(snapshot.sink.sorted()[0].span.begin), 0U);
}

TEST(Allow, takes_out_notes_too) {
    const auto snapshot = analyse_with_library(
        "session: A\nallow: movement-unknown, everybody here knows it\nskiff haul: 8\n");
    EXPECT_EQ(problem_lines(snapshot), "");
}

TEST(Allow, holds_for_time_limits_that_are_found_last) {
    const auto snapshot = analyse(
        "session: A\nwhen: 2026-12-03 18:30 for 5 min\nallow: over-time, the tide\nrow: 30 min\n");
    EXPECT_EQ(problem_lines(snapshot), "");
}

TEST(Allow, leaves_other_problems_and_counts_them) {
    std::string text = "allow: count-high, a charity evening\nsession: A\n";
    for (int i = 0; i < 12; ++i) {
        text += "circuit: 2 rounds\n";
        for (int j = 0; j < 20; ++j)
            text += "  m" + std::to_string(i * 20 + j) + ": 500\n";
    }
    const auto snapshot = analyse(text + "sets:\n  squat: 3 alternating\n");
    EXPECT_EQ(codes(snapshot), "alternating-odd") << "behind more than the sink keeps";
    EXPECT_EQ(snapshot.sink.dropped(), 0U);
    EXPECT_TRUE(snapshot.sink.has_warnings());
}

TEST(Allow, that_nothing_meets_is_told) {
    const auto snapshot = analyse("allow: over-time, no reason at all\nsession: A\nsquat: 5\n");
    ASSERT_EQ(codes(snapshot), "allow-unused");
    EXPECT_EQ(place(snapshot), "over-time, no reason at all");
    const auto errors = analyse("allow: over-time, the tide\nsession: A\nsquat: 5 x\n");
    EXPECT_EQ(errors.sink.sorted().size(), 1U) << "not where errors hide what it would meet";
}

TEST(Allow, of_what_cards_alone_show_is_not_told_to_be_unmet) {
    const auto snapshot =
        analyse("allow: card-cues-dropped, they know them\nsession: A\nsquat: 5\n");
    EXPECT_EQ(problem_lines(snapshot), "");
}

TEST(Allow, refuses_names_that_it_does_not_know) {
    const auto near = analyse("allow: overtime, the tide\nsession: A\nsquat: 5\n");
    ASSERT_EQ(codes(near), "allow-unknown");
    EXPECT_EQ(place(near), "overtime");
    EXPECT_EQ(first_fix(near), "over-time");
    const auto far = analyse("allow: everything, the tide\nsession: A\nsquat: 5\n");
    ASSERT_EQ(codes(far), "allow-unknown");
    EXPECT_EQ(first_fix(far), "");
}

TEST(Allow, refuses_errors_and_wants_a_reason) {
    const auto error = analyse("allow: load-unit, all know\nsession: A\nsquat: 5\n");
    ASSERT_EQ(codes(error), "allow-error");
    EXPECT_EQ(place(error), "load-unit");
    for (const char* text : {"allow: over-time", "allow: over-time,", "allow: over-time ,  "}) {
        const auto reason = analyse(std::string(text) + "\nsession: A\nsquat: 5\n");
        EXPECT_EQ(codes(reason), "allow-reason") << text;
    }
}

TEST(Allow, of_one_session_leaves_the_problem_of_another_that_shares_its_lines) {
    for (const bool first : {false, true}) {
        const std::string allow = "allow: count-high, a charity evening\n";
        const auto snapshot = analyse("session 1: A\n" + (first ? allow : "") + high +
                                      "session 2: B\nbased on: session 1\n" + (first ? "" : allow));
        EXPECT_EQ(codes(snapshot), "count-high") << first;
    }
    const auto both =
        analyse("session 1: A\nallow: count-high, a charity evening\n" + high +
                "session 2: B\nbased on: session 1\nallow: count-high, a charity evening\n");
    EXPECT_EQ(problem_lines(both), "");
}

TEST(Allow, of_one_session_leaves_what_reading_finds_in_a_line_that_two_share) {
    const std::string text = "session 1: A\nrests: 3 min\nsession 2: B\nbased on: session 1\n";
    const std::string allow = "allow: near-keyword, a game of ours\n";
    EXPECT_EQ(codes(analyse(text)), "near-keyword");
    EXPECT_EQ(codes(analyse(text + allow)), "near-keyword") << "and the allowance is of use";
    EXPECT_EQ(codes(analyse("session 1: A\n" + allow +
                            "rests: 3 min\n"
                            "session 2: B\nbased on: session 1\n" +
                            allow)),
              "");
}

TEST(Allow, of_one_session_leaves_a_movement_that_another_does_not_know) {
    const auto snapshot = analyse_with_library(
        "session 1: A\nallow: movement-unknown, ours\nskiff haul: 8\n"
        "session 2: B\nskiff haul: 8\n");
    ASSERT_EQ(codes(snapshot), "movement-unknown");
    EXPECT_EQ(snapshot.source->position(snapshot.sink.sorted()[0].span.begin).line, 5U);
}

TEST(Allow, in_a_routine_is_one_however_often_it_is_used) {
    const auto snapshot = analyse(
        "routine Legs: reps 500\n  allow: count-high, a charity evening\n  squat: 3 x [reps]\n"
        "session 1: A\nuse Legs:\nsession 2: B\nuse Legs: reps 10\n");
    EXPECT_EQ(problem_lines(snapshot), "");
}

TEST(Allow, holds_for_more_than_are_kept_while_the_lines_are_read) {
    std::string sessions;
    for (std::size_t i = 0; i < DiagnosticSink::limit + 50; ++i)
        sessions += "session " + std::to_string(i) + ": S\nrests: 3 min\n";
    const auto snapshot = analyse(
        "allow: near-keyword, a game of ours\n"
        "allow: title-twice, they are one\n" +
        sessions);
    EXPECT_EQ(problem_lines(snapshot), "");
    EXPECT_EQ(snapshot.sink.dropped(), 0U);
    EXPECT_FALSE(snapshot.sink.has_warnings());
}

TEST(Allow, reads_commas_of_every_form) {
    EXPECT_EQ(codes(analyse("allow: count-high\uFF0Ca charity evening\nsession: A\n" + high)), "");
}

const std::string allow = "allow: count-high, a charity evening\n";

// The lines that problems stand in, "4 7".
std::string numbers(const analysis::Snapshot& snapshot) {
    std::string text;
    for (const Diagnostic& diagnostic : snapshot.sink.sorted()) {
        if (!text.empty()) text += ' ';
        text += std::to_string(snapshot.source->position(diagnostic.span.begin).line);
    }
    return text;
}

TEST(Allow, below_a_movement_holds_for_that_movement_alone) {
    const auto second = analyse("session: A\nsets:\n" + high + high + allow + high);
    EXPECT_EQ(codes(second), "count-high count-high");
    EXPECT_EQ(numbers(second), "3 6");
    const auto loose = analyse("session: A\n" + high + allow + high);
    EXPECT_EQ(numbers(loose), "4");
    const auto below = analyse("session: A\nsets:\n" + high + allow + "or lunge: 3 x 500\n" + high);
    EXPECT_EQ(numbers(below), "6") << "what is done in its stead goes with it";
}

TEST(Allow, below_a_blocks_line_holds_for_that_block_alone) {
    const auto snapshot = analyse("session: A\nsets X:\n" + high + "sets Y:\n" + allow + high +
                                  high + "sets Z:\n" + high);
    EXPECT_EQ(codes(snapshot), "count-high count-high");
    EXPECT_EQ(numbers(snapshot), "3 9");
}

TEST(Allow, leaves_the_other_movement_that_somebody_avoids) {
    const std::string before =
        "movement mast press:\n  demands: overhead\nmovement sail hoist:\n"
        "  demands: overhead\nsession: A\navoid: overhead\nsets:\n";
    const std::string avoided = "allow: avoided, with an empty hand\n";
    EXPECT_EQ(numbers(analyse(before + "mast press: 5\nsail hoist: 5\n")), "8 9");
    EXPECT_EQ(numbers(analyse(before + "mast press: 5\n" + avoided + "sail hoist: 5\n")), "10");
    EXPECT_EQ(numbers(analyse(before + "mast press: 5\nsail hoist: 5\n" + avoided)), "8");
    EXPECT_EQ(numbers(analyse(before + "mast press: 5\n" + avoided + "mast press: 5\n")), "10");
}

TEST(Allow, leaves_the_other_movement_of_which_nothing_is_known) {
    const std::string before = "session: A\navoid: overhead\nsets:\nskiff haul: 5\n";
    const std::string unknown = "allow: avoid-unknown, the hands stay low\n";
    const auto first = analyse(before + unknown + "keel lift: 5\n");
    ASSERT_EQ(codes(first), "avoid-unknown");
    EXPECT_EQ(numbers(first), "6");
    EXPECT_FALSE(problem_lines(first).contains("skiff haul")) << problem_lines(first);
    const auto second = analyse(before + "keel lift: 5\n" + unknown);
    EXPECT_EQ(numbers(second), "4");
    EXPECT_FALSE(problem_lines(second).contains("keel lift")) << problem_lines(second);
    EXPECT_EQ(problem_lines(analyse(before + unknown + "keel lift: 5\n" + unknown)), "");
}

TEST(Allow, goes_with_the_movement_to_a_session_that_is_based_on_its_own) {
    const std::string base = "session 1: A\nsets:\n" + high + allow + high;
    const std::string other = "session 2: B\nbased on: session 1\n";
    EXPECT_EQ(numbers(analyse(base + other)), "5") << "of the line that both share, once";
    EXPECT_EQ(numbers(analyse(base + other + "leave out: squat\nsets:\nrow: 5 min\n")), "5");
    const auto anew = analyse("session 1: A\nsets:\n" + high + allow + other + high);
    EXPECT_EQ(numbers(anew), "7") << "what is written anew does without";
    const auto block = analyse("session 1: A\nsets:\n" + allow + high + other);
    EXPECT_EQ(numbers(block), "");
}

TEST(Allow, in_a_line_that_two_movements_share_must_hold_for_both) {
    const std::string routine = "routine Legs:\n  squat: 500\nsession: A\n";
    EXPECT_EQ(numbers(analyse(routine + "sets X:\nuse Legs:\n" + allow + "sets Y:\nuse Legs:\n")),
              "2");
    EXPECT_EQ(
        numbers(analyse(routine + "sets X:\nuse Legs:\n" + allow + "sets Y:\nuse Legs:\n" + allow)),
        "");
}

TEST(Allow, that_nothing_meets_says_how_far_it_reaches) {
    const std::string limit = "session: A\nwhen: 2026-12-03 18:30 for 5 min\n";
    const std::string over = "allow: over-time, the tide\n";
    const auto movement = analyse(limit + "row: 30 min\n" + over);
    EXPECT_EQ(codes(movement), "over-time allow-unused");
    EXPECT_TRUE(problem_text(movement).contains("covers that movement alone"))
        << problem_text(movement);
    EXPECT_TRUE(problem_text(movement).contains("move it to the session's head"));
    const auto block = analyse(limit + "sets:\n" + over + "row: 30 min\n");
    EXPECT_TRUE(problem_text(block).contains("covers that block alone")) << problem_text(block);
    const auto head = analyse("session: A\n" + over + "row: 30 min\n");
    EXPECT_FALSE(problem_text(head).contains("alone")) << problem_text(head);
}

}  // namespace
}  // namespace stave::tests
