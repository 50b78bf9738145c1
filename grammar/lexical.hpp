// Characters and words: blanks, letters, signs and look-up of whole words in
// the vocabulary. Takes UTF-8 that has been proved valid.
//
// Signs that phones and word processors put in for plain ones are read in
// place (× for x, en dash for -, … for .., → for ->), so that every span stays
// a span of the text as typed.
#pragma once

#include <algorithm>
#include <array>
#include <string_view>
#include <tao/pegtl.hpp>

#include "grammar/vocabulary.hpp"

namespace stave::grammar {

using namespace tao::pegtl;

// Rules for characters beyond ASCII: what begins with an ASCII byte is not even decoded,
// which nearly all that is read does.
template <typename... Rules>
struct beyond_ascii : seq<not_at<seven>, sor<Rules...>> {};

// Blanks of every width, and marks without any, are what pasted text brings.
struct blank
    : sor<one<' ', '\t'>,
          beyond_ascii<utf8::one<0xA0, 0x202F, 0x3000, 0xFEFF>, utf8::range<0x2000, 0x200F>>> {};
struct blanks : star<blank> {};

// Hyphen, non-breaking hyphen, figure dash, en dash, minus. Not the start of an
// arrow.
struct dash : seq<sor<one<'-'>, beyond_ascii<utf8::one<0x2010, 0x2011, 0x2012, 0x2013, 0x2212>>>,
                  not_at<one<'>'>>> {};
struct dots : sor<seq<two<'.'>, opt<one<'.'>>>, beyond_ascii<utf8::one<0x2026>>> {};
struct arrow : sor<string<'-', '>'>, string<'=', '>'>, beyond_ascii<utf8::one<0x2192>>> {};
struct comma : sor<one<','>, beyond_ascii<utf8::one<0xFF0C, 0x3001, 0x060C>>> {};
struct plus_sign : sor<one<'+'>, beyond_ascii<utf8::one<0xFF0B>>> {};
struct at_sign : one<'@'> {};

struct vulgar_sign
    : beyond_ascii<utf8::one<0xBC, 0xBD, 0xBE, 0x2153, 0x2154, 0x215B, 0x215C, 0x215D, 0x215E>> {};
struct multiplication_sign : beyond_ascii<utf8::one<0xD7, 0x445>> {};

// A letter of any script: whatever beyond ASCII is no sign of the notation.
struct letter
    : sor<alpha, beyond_ascii<seq<not_at<sor<blank, utf8::one<0x2026, 0x2192, 0xB0, 0xFF05, 0xD7>,
                                             dash, comma, plus_sign, vulgar_sign>>,
                                  utf8::any>>> {};

// A keyword in any letter case, not the start of a longer word.
template <typename Text>
struct word : seq<Text, not_at<letter>> {};
#define STAVE_KEYWORD(text) ::stave::grammar::word<TAO_PEGTL_ISTRING(text)>

// x, X, × or Cyrillic х standing alone.
struct times : sor<seq<one<'x', 'X'>, not_at<letter>>, seq<multiplication_sign, not_at<alpha>>> {};

// Compares in lower case, as std::less does.
[[nodiscard]] constexpr int compare_folded(std::string_view left, std::string_view right) {
    const std::size_t shared = std::min(left.size(), right.size());
    for (std::size_t i = 0; i < shared; ++i) {
        const auto a = static_cast<unsigned char>(to_lower(left[i]));
        const auto b = static_cast<unsigned char>(to_lower(right[i]));
        if (a != b) return a < b ? -1 : 1;
    }
    if (left.size() == right.size()) return 0;
    return left.size() < right.size() ? -1 : 1;
}

template <std::size_t Size>
[[nodiscard]] consteval auto sorted_words(std::array<std::string_view, Size> words) {
    std::ranges::sort(
        words, [](std::string_view a, std::string_view b) { return compare_folded(a, b) < 0; });
    return words;
}

// Sorted without letter case.
inline constexpr auto unit_words = sorted_words(std::array<std::string_view, 0
#define STAVE_UNIT(id, dimension, singular, plural, numerator, denominator) +2
#define STAVE_UNIT_SPELLING(id, word) +1
#include "grammar/keywords.def"
                                                           >{
#define STAVE_UNIT(id, dimension, singular, plural, numerator, denominator) singular, plural,
#define STAVE_UNIT_SPELLING(id, word) word,
#include "grammar/keywords.def"
});
inline constexpr auto reserved_words = sorted_words(std::array<std::string_view, 0
#define STAVE_WORD(word) +1
#include "grammar/keywords.def"
                                                               >{
#define STAVE_WORD(word) word,
#include "grammar/keywords.def"
});
inline constexpr auto side_words = sorted_words(std::array<std::string_view, 0
#define STAVE_SIDE_WORD(id, word) +1
#include "grammar/keywords.def"
                                                           >{
#define STAVE_SIDE_WORD(id, word) word,
#include "grammar/keywords.def"
});
inline constexpr auto pattern_words = sorted_words(std::array<std::string_view, 0
#define STAVE_PATTERN(id, word) +1
#include "grammar/keywords.def"
                                                              >{
#define STAVE_PATTERN(id, word) word,
#include "grammar/keywords.def"
});

template <typename Words>
[[nodiscard]] constexpr bool contains_word(const Words& words, std::string_view word) {
    const auto found = std::ranges::lower_bound(
        words, word,
        [](std::string_view a, std::string_view b) { return compare_folded(a, b) < 0; });
    return found != words.end() && compare_folded(*found, word) == 0;
}

// A run of letters with - and ' inside.
struct word_text : seq<letter, star<sor<letter, seq<one<'-', '\''>, at<letter>>>>> {};

// Matches `Text` where `Accepts` takes what it matched, a std::string_view.
template <typename Text, auto Accepts>
struct accepted {
    using rule_t = accepted;
    using subs_t = empty_list;

    template <typename Input>
    [[nodiscard]] static bool match(Input& in) {
        auto mark = in.template mark<rewind_mode::required>();
        const char* const begin = in.current();
        if (!tao::pegtl::match<Text, apply_mode::nothing, rewind_mode::dontcare, nothing, normal>(
                in)) {
            return mark(false);
        }
        const auto length = static_cast<std::size_t>(in.current() - begin);
        return mark(Accepts(std::string_view(begin, length)));
    }
};

template <const auto& Words>
[[nodiscard]] constexpr bool is_word_of(std::string_view text) {
    return contains_word(Words, text);
}

[[nodiscard]] constexpr bool is_free_word(std::string_view text) {
    return !contains_word(reserved_words, text) && !contains_word(unit_words, text);
}

// A word of a sorted table.
template <const auto& Words>
struct word_of : accepted<word_text, &is_word_of<Words>> {};

// Letters, or one of the signs % ° ％, of the unit table.
struct unit_text : sor<plus<alpha>, one<'%'>, utf8::one<0xB0, 0xFF05>> {};
struct unit : seq<accepted<unit_text, &is_word_of<unit_words>>, not_at<letter>> {};

// A word that is free for a label: no reserved word, no unit.
struct label_word : accepted<word_text, &is_free_word> {};

}  // namespace stave::grammar
