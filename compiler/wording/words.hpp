// The words of words.def in the language of a card, and what a number does to them.
//
// Every function is total. Plural categories and their rules are those of Unicode CLDR
// (supplemental data, plurals.xml and pluralRanges.xml).
#pragma once

#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>

#include "compiler/quantity/quantity.hpp"
#include "compiler/wording/language.hpp"

namespace stave::wording {

enum class Word : std::uint8_t {
#define STAVE_WORDS(id, en, pt, es, fr, de, pl, el) id,
#include "compiler/wording/words.def"
};

// What is counted.
enum class Noun : std::uint8_t {
#define STAVE_NOUN(id, en, pt, es, fr, de, pl, el) id,
#include "compiler/wording/words.def"
};

// Those that the seven languages need; what is `many` in Spanish, French and Portuguese,
// whole millions, is `other` here.
enum class Plural : std::uint8_t { one, few, many, other };

// Lives as long as the program.
[[nodiscard]] std::string_view word(Language language, Word word);
// The word with {0}, {1} ... filled in; at most ten texts.
[[nodiscard]] std::string said(Language language, Word word,
                               std::initializer_list<std::string_view> texts);

// Of numbers from 0 on.
[[nodiscard]] Plural plural_of(Language language, Ratio number);
// Of a range that ends with this number.
[[nodiscard]] Plural plural_of_range(Language language, Ratio end);
// Of several numbers in a row, the last of them this one: "12-10-8 steps".
[[nodiscard]] Plural plural_of_list(Language language, Ratio last);
// Of a number that is not said: "max steps".
[[nodiscard]] Plural plural_of_unknown(Language language);

[[nodiscard]] std::string_view noun(Language language, Noun noun, Plural plural);
// "3 rounds", a no-break space between them.
[[nodiscard]] std::string counted(Language language, Noun noun, Ratio number);

// What stands behind a number: a word, or the sign that is the same in every language.
[[nodiscard]] std::string_view unit_word(Language language, Unit unit, Plural plural);

// As `to_decimal`, with the language's decimal mark.
[[nodiscard]] std::string decimal(Language language, Ratio value);

// "Stop: sharp pain"; the sign alone is Word::colon.
[[nodiscard]] std::string labelled(Language language, std::string_view label,
                                   std::string_view text);
// "; ", between what stands beside a dose.
[[nodiscard]] std::string break_between(Language language);

}  // namespace stave::wording
