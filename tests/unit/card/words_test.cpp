// The catalogue of words: nothing is missing, and numbers choose their forms. Plural rules,
// dates and decimal marks are held against CLDR by tests/checks/languages.py.
#include "compiler/wording/words.hpp"

#include <gtest/gtest.h>

#include <array>
#include <set>
#include <string>
#include <vector>

#include "compiler/wording/wording.hpp"
#include "tests/unit/card/program_builders.hpp"

namespace stave::wording {
namespace {

using namespace stave::test;

constexpr std::string_view word_names[] = {
#define STAVE_WORDS(id, en, pt, es, fr, de, pl, el) #id,
#include "compiler/wording/words.def"
};
constexpr std::string_view noun_names[] = {
#define STAVE_NOUN(id, en, pt, es, fr, de, pl, el) #id,
#include "compiler/wording/words.def"
};

std::multiset<char> places(std::string_view text) {
    std::multiset<char> found;
    for (std::size_t at = text.find('{'); at != std::string_view::npos; at = text.find('{', at + 1))
        found.insert(text[at + 1]);
    return found;
}

class EveryLanguage : public testing::TestWithParam<Language> {};

TEST_P(EveryLanguage, HasEveryWordWithTheSamePlaces) {
    for (std::size_t id = 0; id < std::size(word_names); ++id) {
        const std::string_view english = word(Language::english, static_cast<Word>(id));
        const std::string_view here = word(GetParam(), static_cast<Word>(id));
        EXPECT_FALSE(here.empty()) << word_names[id];
        EXPECT_EQ(places(here), places(english)) << word_names[id];
        EXPECT_EQ(here.front() == ' ', english.front() == ' ') << word_names[id];
        EXPECT_EQ(here.back() == ' ', english.back() == ' ') << word_names[id];
        EXPECT_EQ(here.find("  "), std::string_view::npos) << word_names[id];
    }
}

TEST_P(EveryLanguage, HasEveryFormOfWhatIsCounted) {
    for (std::size_t id = 0; id < std::size(noun_names); ++id) {
        for (const Plural plural : {Plural::one, Plural::few, Plural::many, Plural::other})
            EXPECT_FALSE(noun(GetParam(), static_cast<Noun>(id), plural).empty()) << noun_names[id];
    }
}

// Loanwords are alike in two languages; most words of two columns are not.
TEST_P(EveryLanguage, IsNotAnotherLanguageUnderItsName) {
    for (const Language other : languages) {
        if (other == GetParam()) continue;
        std::size_t alike = 0;
        for (std::size_t id = 0; id < std::size(word_names); ++id)
            alike += word(GetParam(), static_cast<Word>(id)) == word(other, static_cast<Word>(id));
        EXPECT_LT(alike, std::size(word_names) / 2) << tag(other);
    }
}

INSTANTIATE_TEST_SUITE_P(Words, EveryLanguage, testing::ValuesIn(languages),
                         [](const auto& language) { return std::string(tag(language.param)); });

TEST(Words, LeaveNoEnglishInAnotherLanguage) {
    program::Item item = movement("X", times(3, exactly(40, Unit::steps)));
    item.sides = each_side(program::SideWord::leg);
    item.tempo = program::Tempo{{{3, false}, {1, false}, {1, true}, {0, false}}};
    item.rest = pause(60);
    item.rest_after = pause(2, Unit::minute);
    program::Block block;
    block.run = program::RunKind::every_next;
    block.rounds = 3;
    block.time = {2, Unit::minute};
    block.items = {item, item};
    for (const Language language : languages) {
        if (language == Language::english) continue;
        const std::string text = dose(language, block, item) + '\n' + format(language, block);
        for (const std::string_view english :
             {"steps", "each", "down", "fast", "rest", "after", "rounds", "every", "movement"})
            EXPECT_EQ(text.find(english), std::string::npos) << english << " in " << text;
    }
}

// The notation's own spellings are what a card in English says.
TEST(Words, CallUnitsInEnglishAsTheNotationDoes) {
    static constexpr Unit units[] = {
#define STAVE_UNIT(id, dimension, singular, plural, numerator, denominator) Unit::id,
#include "grammar/keywords.def"
    };
    for (const Unit unit : units) {
        EXPECT_EQ(unit_word(Language::english, unit, Plural::one), singular(unit));
        EXPECT_EQ(unit_word(Language::english, unit, Plural::other), plural(unit));
    }
}

TEST(Words, SignsOfUnitsAreTheSameInEveryLanguage) {
    for (const Language language : languages) {
        for (const Unit unit : {Unit::second, Unit::minute, Unit::kilogram, Unit::metre,
                                Unit::kilocalorie, Unit::watt, Unit::pound})
            EXPECT_EQ(unit_word(language, unit, Plural::many), plural(unit));
    }
}

TEST(Words, FillTheirPlacesInTheOrderOfTheLanguage) {
    EXPECT_EQ(said(Language::english, Word::breathe, {"4", "6"}), "breathe in 4, out 6");
    EXPECT_EQ(said(Language::german, Word::breathe, {"4", "6"}), "4 einatmen, 6 ausatmen");
    EXPECT_EQ(said(Language::english, Word::named_band, {"band", "heavy"}), "heavy band");
    EXPECT_EQ(said(Language::french, Word::named_band, {"élastique", "fort"}), "élastique fort");
}

TEST(Words, TakeTheFormThatTheirNumberAsksFor) {
    const auto rounds = [](Language language, Ratio number) {
        return counted(language, Noun::rounds, number);
    };
    EXPECT_EQ(rounds(Language::polish, 1), "1\u00A0runda");
    EXPECT_EQ(rounds(Language::polish, 3), "3\u00A0rundy");
    EXPECT_EQ(rounds(Language::polish, 5), "5\u00A0rund");
    EXPECT_EQ(rounds(Language::polish, 12), "12\u00A0rund");
    EXPECT_EQ(rounds(Language::polish, 22), "22\u00A0rundy");
    EXPECT_EQ(rounds(Language::french, 1), "1\u00A0tour");
    EXPECT_EQ(rounds(Language::french, Ratio(3, 2)), "1,5\u00A0tour");
    EXPECT_EQ(rounds(Language::german, Ratio(3, 2)), "1,5\u00A0Runden");
    EXPECT_EQ(rounds(Language::greek, 2), "2\u00A0γύροι");
}

TEST(Words, ListsAndRangesTakeTheFormOfTheirEnd) {
    EXPECT_EQ(amounts(Language::polish, movement("X", each_of({10, 8, 4}, Unit::steps))),
              "10-8-4\u00A0kroki");
    EXPECT_EQ(amounts(Language::polish, movement("X", each_of({10, 8, 1}, Unit::steps))),
              "10-8-1\u00A0kroków");
    EXPECT_EQ(amount(Language::polish, from_to(2, 5, Unit::laps)), "2–5\u00A0okrążeń");
    EXPECT_EQ(amount(Language::polish, most(Unit::steps)), "maks.\u00A0kroków");
}

TEST(Words, WriteDecimalsWithTheMarkOfTheLanguage) {
    EXPECT_EQ(quantity(Language::english, {Ratio(5, 2), Unit::kilogram}), "2.5\u00A0kg");
    EXPECT_EQ(quantity(Language::german, {Ratio(5, 2), Unit::kilogram}), "2,5\u00A0kg");
    EXPECT_EQ(quantity(Language::greek, {Ratio(4484, 10), Unit::second}),
              "7\u00A0min\u00A028,4\u00A0s");
    program::Item item = movement("X", each_of({5, 5}));
    item.loads = weights({Ratio(85, 2), 45});
    EXPECT_EQ(loads(Language::spanish, item), "42,5 luego 45\u00A0kg");
}

TEST(Words, BeginAFrenchMonthWithItsFirst) {
    using namespace std::chrono;
    EXPECT_EQ(date(Language::french, 2026y / January / 1), "jeu. 1er\u00A0janvier 2026");
    EXPECT_EQ(date(Language::french, 2026y / January / 2), "ven. 2\u00A0janvier 2026");
}

}  // namespace
}  // namespace stave::wording
