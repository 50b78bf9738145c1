// Texts that are made to take all memory or never to end. Each must be refused, or
// read, in a moment.
#include <gtest/gtest.h>

#include <chrono>

#include "tests/unit/compose/composing.hpp"

namespace stave::tests {
namespace {

// Generous for a build with sanitizers on a busy machine; the texts would take
// hours, or all memory, if anything grew with their square.
class Hostile : public testing::Test {
protected:
    void TearDown() override {
        EXPECT_LT(std::chrono::steady_clock::now() - begun_, std::chrono::seconds(60));
    }

private:
    std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
};

std::string repeated(const std::string& text, std::size_t size) {
    std::string whole;
    whole.reserve(size + text.size());
    while (whole.size() + text.size() <= size)
        whole += text;
    return whole;
}

analysis::Snapshot analyse(std::string text) {
    return analyse_with({}, std::move(text));
}

TEST_F(Hostile, routines_that_multiply_are_cut_off) {
    std::string text;
    for (int depth = 0; depth < 20; ++depth) {
        text += "routine R" + std::to_string(depth) + ": reps 8\n";
        for (int use = 0; use < 10; ++use) {
            text += depth == 0 ? "  squat: [reps]\n"
                               : "  use R" + std::to_string(depth - 1) + ": reps [reps]\n";
        }
    }
    const auto snapshot = analyse(text + "session: A\nsets:\n  use R19:\n");
    EXPECT_EQ(codes(snapshot), "routine-too-long");
    EXPECT_LT(snapshot.document.lines.size(), 2 * compose::most_added_lines);
}

TEST_F(Hostile, routines_of_nothing_but_uses_are_cut_off) {
    std::string text = "routine R0:\n";
    for (int depth = 1; depth < 20; ++depth) {
        text += "routine R" + std::to_string(depth) + ":\n";
        text += repeated("  use R" + std::to_string(depth - 1) + ":\n", 1000);
    }
    const auto snapshot = analyse(text + "session: A\nrow: 5 min\nuse R19:\n");
    EXPECT_TRUE(codes(snapshot).contains("routine-too-long")) << codes(snapshot);
}

TEST_F(Hostile, a_file_of_uses_of_a_long_routine_is_cut_off) {
    const std::string routine = "routine R:\n" + repeated("  squat: 5\n", 2'000'000);
    const auto snapshot =
        analyse(routine + "session: A\nsets:\n" + repeated("use R:\n", 8'000'000));
    EXPECT_TRUE(codes(snapshot).contains("routine-too-long")) << codes(snapshot);
}

TEST_F(Hostile, a_file_of_uses_of_nothing_is_told_of) {
    const auto snapshot =
        analyse("session: A\nsets:\n" + repeated("use Nothing:\n", SourceFile::largest - 100));
    EXPECT_EQ(snapshot.sink.sorted().size(), DiagnosticSink::limit);
}

TEST_F(Hostile, many_routines_and_as_many_unknown_uses_are_told_of) {
    std::string text;
    for (int i = 0; i < 100'000; ++i)
        text += "routine Long name number " + std::to_string(i) + ":\n";
    text += "session: A\nrow: 5 min\n";
    for (int i = 0; i < 100'000; ++i)
        text += "use Wrong name number " + std::to_string(i) + ":\n";
    EXPECT_EQ(analyse(text).sink.sorted().size(), DiagnosticSink::limit);
}

TEST_F(Hostile, filled_lines_that_would_fill_the_memory_are_cut_off) {
    const std::string value(1900, 'x');
    std::string text = "routine R: v " + value + "\n";
    text += repeated("  squat: 5 # no\n    cue: [v]\n", 2'000'000);
    text += "session: A\nsets:\n";
    for (int i = 0; i < 1000; ++i)
        text += "use R: v " + std::to_string(i) + value.substr(10) + '\n';
    const auto snapshot = analyse(text);
    EXPECT_TRUE(codes(snapshot).contains("routine-too-long")) << codes(snapshot);
    EXPECT_LE(snapshot.source->text().size(), SourceFile::largest_together);
}

TEST_F(Hostile, sessions_in_a_chain_of_ten_thousand_are_refused) {
    for (const bool downwards : {false, true}) {
        std::string text;
        for (int i = 0; i < 10'000; ++i) {
            const int number = downwards ? 10'000 - i : i;
            text += "session " + std::to_string(number) + ":\nbased on: session " +
                    std::to_string(number - 1) + "\nsquat: 5\n";
        }
        const auto snapshot =
            analyse("session " + std::string(downwards ? "0" : "-1") + ":\nsquat: 5\n" + text);
        EXPECT_TRUE(snapshot.sink.has_errors());
    }
}

TEST_F(Hostile, sessions_in_a_ring_of_ten_thousand_are_refused) {
    std::string text;
    for (int i = 0; i < 10'000; ++i) {
        text += "session " + std::to_string(i) + ":\nbased on: session " +
                std::to_string((i + 1) % 10'000) + "\n";
    }
    EXPECT_TRUE(analyse(text).sink.has_errors());
}

TEST_F(Hostile, a_long_session_that_thousands_are_based_on_is_refused) {
    std::string text = "session 0:\n" + repeated("squat: 5\n", 1'000'000);
    for (int i = 1; i < 10'000; ++i)
        text += "session " + std::to_string(i) + ":\nbased on: session 0\n";
    const auto snapshot = analyse(text);
    EXPECT_TRUE(codes(snapshot).contains("base-too-long"));
    EXPECT_LT(snapshot.document.lines.size(), 1'000'000U);
}

TEST_F(Hostile, long_sessions_are_changed_line_by_line) {
    std::string base = "session 1: A\nsets X:\n";
    std::string own = "session 2: B\nbased on: session 1\nleave out: m1\nsets X:\n";
    for (int i = 0; i < 50'000; ++i) {
        base += "m" + std::to_string(i) + ": 5\n";
        own += "m" + std::to_string(i + 1) + ": 6\n";
    }
    EXPECT_TRUE(analyse(base + own).sink.has_errors()) << "more than a block holds";
    std::string left_out = "session 2: B\nbased on: session 1\n";
    for (int i = 0; i < 50'000; ++i)
        left_out += "leave out: q" + std::to_string(i) + "\n";
    EXPECT_EQ(analyse(base + left_out).sink.sorted().size(), DiagnosticSink::limit);
}

TEST_F(Hostile, a_line_of_thousands_of_values_is_refused) {
    std::string list = "1";
    for (int i = 0; i < 1'000'000; ++i)
        list += "-1";
    EXPECT_EQ(codes(analyse("session: A\nsquat: " + list + "\n")), "line-too-long");
    const std::string short_list = "squat: " + repeated("1-", 1900) + "1\n";
    EXPECT_TRUE(analyse("session: A\n" + short_list).sink.has_errors());
    EXPECT_TRUE(analyse("session: A\nleave out: " + repeated("a,", 1900) + "\n").sink.has_errors());
    static_cast<void>(analyse("session: A\nuse R: " + repeated(",", 1900) + "\n"));
    static_cast<void>(analyse("routine R: " + repeated("a b,", 1900) + "\nsession: A\nuse R:\n"));
}

TEST_F(Hostile, a_million_lines_of_values_are_read) {
    std::string text;
    for (int i = 0; i < 20'000; ++i) {
        text += "session " + std::to_string(i) + ":\n";
        text += repeated("squat: 8-8-8-8-8-8-8-8-8-8\n", 135);
    }
    const auto snapshot = analyse(text);
    EXPECT_FALSE(snapshot.sink.sorted().empty() && snapshot.program.sessions.empty());
}

TEST_F(Hostile, many_allow_lines_over_many_problems_are_read) {
    std::string text = repeated("allow: count-high, why not\n", 2'000'000);
    text += "session: A\n" + repeated("allow: count-high, why not\n", 2'000'000);
    for (int i = 0; i < 26; ++i)
        text += "sets:\n" + repeated("squat: 500\n", 600);
    static_cast<void>(analyse(text));
}

TEST_F(Hostile, a_wide_tree_of_files_is_read_once) {
    // Each of 40 files takes in all others; without a memory that is 40! ways.
    Shelf shelf;
    std::string all;
    for (int i = 0; i < 40; ++i)
        all += "include: f" + std::to_string(i) + "\n";
    for (int i = 0; i < 40; ++i)
        shelf["f" + std::to_string(i)] = all;
    const auto snapshot = analyse_with(shelf, all + "session: A\nrow: 5 min\n");
    EXPECT_TRUE(snapshot.sink.has_errors()) << "they take one another in";
}

TEST_F(Hostile, names_that_are_unknown_by_the_hundred_thousand_are_noted) {
    std::string text;
    for (int i = 0; i < 100'000; ++i) {
        if (i % 50 == 0) text += "session " + std::to_string(i) + ":\n";
        text += "unheard of thing " + std::to_string(i) + ": 5\n";
    }
    const auto snapshot = analyse_with_library(text);
    EXPECT_EQ(snapshot.sink.sorted().size(), DiagnosticSink::limit);
}

TEST_F(Hostile, lines_of_many_blanks_are_cut_off_before_they_are_filled) {
    std::string text = "routine R: a " + std::string(1900, 'x') + '\n';
    text += repeated("  cue: " + repeated("[a]", 1900) + '\n', std::size_t{1} << 19U);
    const auto snapshot = analyse(text + "session: A\nsets:\n  squat: 5\n  use R:\n");
    EXPECT_EQ(codes(snapshot), "routine-too-long");
    EXPECT_LT(snapshot.source->text().size(), SourceFile::largest_together);
}

TEST_F(Hostile, many_sessions_on_one_long_base_are_read_once_each) {
    std::string text = "session 0: A\nsets:\n" + repeated("  squat: 5\n", 2'000);
    for (int i = 1; i < 10'000; ++i) {
        text += "session " + std::to_string(i) + ":\nbased on: session " +
                std::to_string(i % 20 == 0 ? 0 : i - 1) + '\n';
    }
    const auto snapshot = analyse(text);
    EXPECT_TRUE(codes(snapshot).contains("base-too-long")) << codes(snapshot);
}

TEST_F(Hostile, unknown_uses_among_long_names_are_told_of) {
    const std::string name(900, 'n');
    std::string text;
    for (int i = 0; i < 1900; ++i)
        text += "routine " + name + std::to_string(1'000 + i) + ":\n";
    text += "session: A\nrow: 5 min\n";
    for (int i = 0; i < 190; ++i)
        text += "use " + name + std::to_string(10'000 + i) + ":\n";
    const auto snapshot = analyse(text);
    EXPECT_EQ(snapshot.sink.sorted().size(), 190U);
}

TEST_F(Hostile, unknown_names_that_are_allowed_are_read) {
    std::string text = "allow: movement-unknown, so\n";
    for (int i = 0; i < 10'000; ++i) {
        if (i % 50 == 0) text += "session " + std::to_string(i) + ": S" + std::to_string(i) + "\n";
        text += "unheard of thing with weight " + std::to_string(i) + ": 5\n";
    }
    EXPECT_FALSE(codes(analyse_with_library(text)).contains("movement-unknown"));
}

TEST_F(Hostile, titles_of_nothing_but_rests_are_read) {
    const std::string line = "circuit " + repeated("rest 3 s, ", 1900) + "x:\n";
    std::string text;
    for (int i = 0; i < 200; ++i)
        text += "session " + std::to_string(i) + ": S\n" + line + "squat: 5\n";
    static_cast<void>(analyse(text));
}

TEST_F(Hostile, sessions_that_each_allow_something_are_read) {
    std::string text;
    for (int i = 0; i < 20'000; ++i) {
        text += "session " + std::to_string(i) + ": S" + std::to_string(i) +
                "\nallow: near-keyword, a game of ours\nrests: 3 min\n";
    }
    EXPECT_EQ(codes(analyse(text)), "");
}

TEST_F(Hostile, movements_that_each_allow_something_are_read) {
    std::string items;
    for (int i = 0; i < 25; ++i)
        items += "sets:\n" + repeated("squat: 500\nallow: count-high, so\n", 900);
    std::string text = "routine R:\n" + items;
    for (int i = 0; i < 100; ++i)
        text += "session " + std::to_string(i) + ": S" + std::to_string(i) + "\nuse R:\n";
    EXPECT_EQ(codes(analyse(text)), "");
}

}  // namespace
}  // namespace stave::tests
