// A few thousand broken texts, the same in every run.

#include <gtest/gtest.h>

#include <map>
#include <utility>

#include "tests/fuzz/check_text.hpp"
#include "tests/fuzz/mutate.hpp"

namespace stave::testing {
namespace {

// So that a failure can be pasted into a test.
std::string escaped(std::string_view text) {
    std::string shown;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        constexpr std::string_view digits = "01234567";
        if (c == '\n') {
            shown += "\\n\n";
        } else if (byte < 0x20 || byte >= 0x7F || c == '"' || c == '\\') {
            shown += {'\\', digits[byte >> 6U], digits[(byte >> 3U) & 7U], digits[byte & 7U]};
        } else {
            shown += c;
        }
    }
    return shown;
}

// Tells each complaint once, with how often it was heard and its shortest text.
class Complaints {
public:
    void take(const std::optional<std::string>& complaint, std::string_view text) {
        if (!complaint) return;
        auto& [count, shortest] = heard_[*complaint];
        if (count++ == 0 || text.size() < shortest.size()) shortest = text;
    }
    ~Complaints() {
        for (const auto& [complaint, texts] : heard_) {
            ADD_FAILURE() << complaint << ", " << texts.first << " times, as in\n"
                          << escaped(texts.second);
        }
    }

private:
    std::map<std::string, std::pair<int, std::string>> heard_;
};

TEST(Fuzz, texts_to_start_from_stand_every_check) {
    TextChecker checker;
    Complaints complaints;
    for (const std::string& text : starting_texts(STAVE_SOURCE_DIR))
        complaints.take(checker.complaint(text, Depth::pdf), text);
    EXPECT_GT(checker.texts_without_errors(), 5);
}

void check_made_up(std::string (*make)(Chance& chance, int number), std::uint64_t seed) {
    TextChecker checker;
    Complaints complaints;
    Chance chance(seed);
    constexpr int tried = 100;
    for (int number = 1; number <= tried; ++number) {
        const std::string text = make(chance, number);
        complaints.take(checker.complaint(text, number % 10 == 0 ? Depth::pdf : Depth::outputs),
                        text);
    }
    EXPECT_EQ(checker.texts_without_errors(), tried);
}

TEST(Fuzz, made_up_sessions_stand_every_check) {
    check_made_up(session, 11);
}

TEST(Fuzz, made_up_crews_stand_every_check) {
    check_made_up(crew, 23);
}

TEST(Fuzz, broken_texts_stand_every_check) {
    const Corpus corpus(starting_texts(STAVE_SOURCE_DIR));
    TextChecker checker;
    Complaints complaints;
    constexpr int tried = 8000;
    for (int number = 0; number < tried; ++number) {
        // A seed for each text, so that one can be made again alone.
        Chance chance(static_cast<std::uint64_t>(number));
        const std::string text = corpus.broken(chance);
        const Depth depth = number % 50 == 0   ? Depth::pdf
                            : number % 10 == 0 ? Depth::outputs
                                               : Depth::analysis;
        complaints.take(checker.complaint(text, depth), text);
    }
    // Broken too little or too much, they would show nothing.
    EXPECT_GT(checker.texts_without_errors(), tried / 20);
    EXPECT_LT(checker.texts_without_errors(), tried / 2);
}

}  // namespace
}  // namespace stave::testing
