// Numbers, quantities, series of quantities, sides: what amounts, loads, details
// and formats are made of.
//
// After each token that decides what must follow, `must` raises the error that
// messages.hpp gives the missing rule. One token of look-ahead decides.
#pragma once

#include "grammar/lexical.hpp"

namespace stave::grammar {

struct digits : plus<digit> {};

// 7:28.4 is minutes, seconds and tenths.
struct clock_number : seq<digits, one<':'>, digits, opt<one<'.'>, digits>> {};
// "1 1/4" alone looks past a blank.
struct mixed_number : seq<digits, plus<blank>, digits, one<'/'>, digits> {};
struct fraction_number : seq<digits, one<'/'>, digits> {};
struct decimal_number : seq<digits, one<'.'>, digits> {};
struct vulgar_number : seq<opt<digits>, vulgar_sign> {};
struct whole_number : digits {};
struct number : sor<clock_number, mixed_number, fraction_number, decimal_number, vulgar_number,
                    whole_number> {};

// The larger units that a smaller one may follow: 1 h 15 min, 11 st 4 lb.
inline constexpr auto compound_words = sorted_words(
    std::array<std::string_view, 13>{"h", "hr", "hour", "hours", "min", "mins", "minute", "minutes",
                                     "st", "stone", "ft", "foot", "feet"});
struct compound_unit : word_of<compound_words> {};

// "8 rep max" and "10, breath in 4 s": there rep and breath are no units.
struct unit_word : seq<not_at<STAVE_KEYWORD("rep max")>, not_at<STAVE_KEYWORD("breath in")>, unit> {
};

struct unit_after_number : unit {};
struct compound_rest : seq<number, blanks, must<unit_after_number>> {};
struct quantity
    : seq<number,
          opt<blanks, sor<seq<at<compound_unit>, unit, star<blanks, compound_rest>>, unit_word>>> {
};

struct max_word : STAVE_KEYWORD("max") {};

struct range_end : quantity {};
struct list_value : sor<quantity, max_word> {};
struct ladder_turn : quantity {};
struct ladder_step : whole_number {};

struct range_tail : seq<STAVE_KEYWORD("to"), blanks, must<range_end>> {};
struct list_tail : plus<dash, blanks, must<list_value>, blanks> {};
struct ladder_by : seq<STAVE_KEYWORD("by"), blanks, must<ladder_step>> {};
struct ladder_tail : seq<plus<dots, blanks, must<ladder_turn>, blanks>, opt<ladder_by>> {};
struct max_in_list : seq<max_word, at<blanks, dash>> {};
struct series : sor<seq<quantity, opt<blanks, sor<range_tail, list_tail, ladder_tail>>>,
                    seq<max_in_list, blanks, list_tail>> {};

struct side_word : word_of<side_words> {};
struct each_side : seq<sor<STAVE_KEYWORD("each"), STAVE_KEYWORD("per")>, blanks, must<side_word>> {
};
struct alternating : STAVE_KEYWORD("alternating") {};
struct there_and_back : STAVE_KEYWORD("there and back") {};
struct left_side : STAVE_KEYWORD("left") {};
struct right_side : STAVE_KEYWORD("right") {};
struct side : sor<each_side, alternating, there_and_back, left_side, right_side> {};

// Words of a free label: "at the bottom", "easy row".
struct dated : seq<STAVE_KEYWORD("on"), blanks, digit> {};
struct label : list<seq<not_at<dated>, label_word>, plus<blank>> {};

struct time_quantity : quantity {};
struct time_end : quantity {};
struct time_range : seq<time_quantity, opt<blanks, STAVE_KEYWORD("to"), blanks, must<time_end>>> {};

}  // namespace stave::grammar
