#include "compiler/wording/words.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include "compiler/wording/joining.hpp"

namespace stave::wording {

namespace {

template <typename Entry>
using ByLanguage = std::array<Entry, languages.size()>;

constexpr ByLanguage<std::string_view> words[] = {
#define STAVE_WORDS(id, en, pt, es, fr, de, pl, el) {en, pt, es, fr, de, pl, el},
#include "compiler/wording/words.def"
};

// By plural category.
using Forms = std::array<std::string_view, 4>;

constexpr ByLanguage<Forms> nouns[] = {
#define STAVE_TWO(one, other)    \
    Forms {                      \
        one, other, other, other \
    }
#define STAVE_FOUR(one, few, many, other) \
    Forms {                               \
        one, few, many, other             \
    }
#define STAVE_NOUN(id, en, pt, es, fr, de, pl, el) {en, pt, es, fr, de, pl, el},
#include "compiler/wording/words.def"
#undef STAVE_TWO
#undef STAVE_FOUR
};

// 2 to 4 at the end, but not 12 to 14, are few; 0, 1 and 5 to 9 are many.
Plural polish_plural(std::int64_t number) {
    const std::int64_t last = number % 10;
    const std::int64_t last_two = number % 100;
    if (number == 1) return Plural::one;
    if (last >= 2 && last <= 4 && (last_two < 12 || last_two > 14)) return Plural::few;
    return Plural::many;
}

std::optional<Noun> noun_of(Unit unit) {
    switch (unit) {
        case Unit::reps:
            return Noun::reps;
        case Unit::steps:
            return Noun::steps;
        case Unit::breaths:
            return Noun::breaths;
        case Unit::strokes:
            return Noun::strokes;
        case Unit::jumps:
            return Noun::jumps;
        case Unit::throws:
            return Noun::throws;
        case Unit::laps:
            return Noun::laps;
        case Unit::lengths:
            return Noun::lengths;
        case Unit::flights:
            return Noun::flights;
        case Unit::mile:
            return Noun::miles;
        case Unit::inch:
            return Noun::inches;
        default:
            return std::nullopt;
    }
}

}  // namespace

std::string_view word(Language language, Word word) {
    return words[static_cast<std::size_t>(word)][static_cast<std::size_t>(language)];
}

std::string said(Language language, Word id, std::initializer_list<std::string_view> texts) {
    std::string result;
    std::string_view rest = word(language, id);
    for (std::size_t at = rest.find('{'); at != std::string_view::npos; at = rest.find('{')) {
        result += rest.substr(0, at);
        const auto place = static_cast<std::size_t>(rest[at + 1] - '0');
        if (place < texts.size()) result += texts.begin()[place];
        // A place is one digit between two braces.
        rest.remove_prefix(at + 3);
    }
    return result.append(rest);
}

Plural plural_of(Language language, Ratio number) {
    switch (language) {
        case Language::english:
        case Language::german:
        case Language::spanish:
        case Language::greek:
            return number == Ratio(1) ? Plural::one : Plural::other;
        // All that begins with 0 or 1: "1,5 tour".
        case Language::french:
        case Language::portuguese:
            return number < Ratio(2) ? Plural::one : Plural::other;
        case Language::polish:
            break;
    }
    return number.is_whole() ? polish_plural(number.numerator()) : Plural::other;
}

Plural plural_of_range(Language language, Ratio end) {
    const bool always_other = language == Language::english || language == Language::spanish;
    return always_other ? Plural::other : plural_of(language, end);
}

Plural plural_of_list(Language language, Ratio last) {
    if (language != Language::polish) return Plural::other;
    const Plural plural = plural_of(language, last);
    return plural == Plural::one ? Plural::many : plural;
}

Plural plural_of_unknown(Language language) {
    return language == Language::polish ? Plural::many : Plural::other;
}

std::string_view noun(Language language, Noun noun, Plural plural) {
    return nouns[static_cast<std::size_t>(noun)][static_cast<std::size_t>(language)]
                [static_cast<std::size_t>(plural)];
}

std::string counted(Language language, Noun id, Ratio number) {
    return beside(decimal(language, number), noun(language, id, plural_of(language, number)));
}

std::string_view unit_word(Language language, Unit unit, Plural form) {
    const std::optional<Noun> id = noun_of(unit);
    return id ? noun(language, *id, form) : plural(unit);
}

std::string decimal(Language language, Ratio value) {
    std::string text = to_decimal(value);
    if (language != Language::english) std::ranges::replace(text, '.', ',');
    return text;
}

std::string labelled(Language language, std::string_view label, std::string_view text) {
    return std::string(label).append(word(language, Word::colon)).append(" ").append(text);
}

std::string break_between(Language language) {
    return std::string(word(language, Word::semicolon)) + ' ';
}

}  // namespace stave::wording
