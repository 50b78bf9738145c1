// Mends that lead nowhere, as no mend should.
#include "compiler/driver/make_mends.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace stave::driver {
namespace {

// Finds a problem wherever `word` stands, with a fix that puts `mended` into its place.
void add_problem(analysis::Snapshot& snapshot, const std::string& text, const std::string& word,
                 const std::string& mended, Code code) {
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        const auto begin = static_cast<std::uint32_t>(at);
        const Span span{begin, begin + static_cast<std::uint32_t>(word.size())};
        snapshot.sink.report({code, span, {word}, {{mended, {Edit{span, mended}}}}, {}});
    }
}

struct Rule {
    std::string word;
    std::string mended;
    Code code = Code::semicolon;
};

// How often the text is analysed is counted.
Mended mend(const std::string& text, const std::vector<Rule>& rules, int* turns = nullptr) {
    return make_mends(text, [&](const std::string& one, std::size_t kept) {
        if (turns != nullptr) ++*turns;
        analysis::Snapshot snapshot = analysis::analyse("a.stave", one, {}, {}, kept);
        for (const Rule& rule : rules)
            add_problem(snapshot, one, rule.word, rule.mended, rule.code);
        return snapshot;
    });
}

const std::string before = "session: A\nrow: 5 min\n  note: ";

TEST(Mends, are_made_one_after_the_other) {
    const Mended mended = mend(before + "a a\n", {{"a", "b"}, {"b", "c"}});
    EXPECT_EQ(mended.text, before + "c c\n");
    EXPECT_EQ(mended.count, 4U);
    EXPECT_FALSE(mended.snapshot.sink.has_errors());
}

TEST(Mends, after_which_the_same_problem_stands_there_again_are_undone) {
    for (const char* again : {"q,", ",q", "q", "qq"}) {
        const Mended mended = mend(before + "a q\n", {{"a", "b"}, {"q", again}});
        EXPECT_EQ(mended.text, before + "b q\n") << again;
        EXPECT_EQ(mended.count, 1U) << again;
        EXPECT_TRUE(mended.snapshot.sink.has_errors()) << again;
    }
}

TEST(Mends, that_undo_each_other_are_undone) {
    for (const char* back : {"a", "aa"}) {
        const Mended mended =
            mend(before + "a x\n", {{"a", "z"}, {"z", back, Code::at_load}, {"x", "y"}});
        EXPECT_EQ(mended.text, before + "a y\n") << back;
        EXPECT_EQ(mended.count, 1U) << back;
    }
}

TEST(Mends, of_ten_thousands_of_problems_take_a_few_turns) {
    std::string text = before;
    for (int i = 0; i < 30'000; ++i)
        text += "a\n  note: ";
    int turns = 0;
    const Mended mended = mend(text + "end\n", {{"a\n", "b\n"}}, &turns);
    EXPECT_EQ(mended.count, 30'000U);
    EXPECT_FALSE(mended.text.contains("a\n"));
    EXPECT_LT(turns, 10);
}

TEST(Mends, leave_no_more_problems_to_be_shown_than_others) {
    std::string text = before;
    for (int i = 0; i < 1'000; ++i)
        text += "q\n  note: ";
    const Mended mended = mend(text + "end\n", {{"q\n", "q\n"}});
    EXPECT_EQ(mended.text, text + "end\n");
    EXPECT_EQ(mended.count, 0U);
    EXPECT_EQ(mended.snapshot.sink.sorted().size(), DiagnosticSink::limit);
    EXPECT_GT(mended.snapshot.sink.dropped(), 0U);
}

}  // namespace
}  // namespace stave::driver
