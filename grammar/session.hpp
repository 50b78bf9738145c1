// The bodies of lines: doses, block formats, dates, kit and the lines of
// movement definitions. Each `..._body` reads one body from its first character
// to its last; blanks around it and a remark behind it have been cut.
#pragma once

#include "grammar/quantity.hpp"

namespace stave::grammar {

// Heads: the names of joined movements.
struct name_character : not_one<',', '+', '@', ':'> {};
struct movement_name : plus<seq<not_at<blanks, sor<plus_sign, eof>>, name_character>> {};
struct head_end : eof {};
struct joined_name : movement_name {};
struct movement_head
    : seq<blanks, must<movement_name>, star<blanks, plus_sign, blanks, must<joined_name>>, blanks,
          must<head_end>> {};

// Amounts.
struct amount : sor<max_word, series> {};
struct set_amount : amount {};
struct sets_tail : seq<times, blanks, must<set_amount>> {};
struct joined_amount : amount {};
struct plus_tail : plus<plus_sign, blanks, must<joined_amount>, blanks> {};
struct work : seq<amount, opt<blanks, sor<sets_tail, plus_tail>>, opt<blanks, side>> {};

// Loads.
struct bodyweight : sor<STAVE_KEYWORD("bodyweight"), seq<TAO_PEGTL_STRING("BW"), not_at<letter>>> {
};
struct band_name : label {};
struct band_load : seq<STAVE_KEYWORD("band"), blanks, must<band_name>> {};
struct implement_weight : series {};
struct load_place : sor<label, left_side, right_side> {};
struct mass_load
    : seq<series, opt<blanks, times, blanks, must<implement_weight>>, opt<blanks, load_place>> {};
struct load_term : sor<bodyweight, band_load, mass_load> {};
struct load : seq<must<load_term>, star<blanks, STAVE_KEYWORD("and"), blanks, must<load_term>>> {};

// Details.
struct phase : sor<seq<digit, opt<digit>>, one<'x', 'X'>, multiplication_sign, utf8::one<0x425>> {};
struct compact_phase : sor<digit, one<'x', 'X'>, multiplication_sign, utf8::one<0x425>> {};
struct phases_with_dashes : seq<phase, dash, phase, dash, phase, dash, phase> {};
struct phases_compact : rep<4, compact_phase> {};
struct tempo_phases : seq<sor<phases_with_dashes, phases_compact>, not_at<sor<alnum, dash>>> {};
struct tempo : seq<STAVE_KEYWORD("tempo"), blanks, must<tempo_phases>> {};

struct hold_time : time_quantity {};
struct hold : seq<STAVE_KEYWORD("hold"), blanks, must<hold_time>, opt<blanks, label>> {};

struct arc_angle : seq<quantity, opt<blanks, label>> {};
struct arc_end : seq<quantity, opt<blanks, label>> {};
struct arc : seq<STAVE_KEYWORD("arc"), blanks, must<arc_angle>,
                 opt<blanks, STAVE_KEYWORD("to"), blanks, must<arc_end>>> {};

struct between_rounds : STAVE_KEYWORD("rounds") {};
struct between_sets : STAVE_KEYWORD("sets") {};
struct between_movements : STAVE_KEYWORD("movements") {};
struct between_sides : STAVE_KEYWORD("sides") {};
struct rest_place : sor<between_rounds, between_sets, between_movements, between_sides> {};
struct between : seq<STAVE_KEYWORD("between"), blanks, must<rest_place>> {};
struct rest_time : time_range {};
struct rest_doing : label {};
struct rest : seq<STAVE_KEYWORD("rest"), blanks, must<rest_time>, opt<blanks, rest_doing>,
                  opt<blanks, between>> {};
// "30 s between sides", without the word rest.
struct bare_rest : seq<time_range, blanks, must<between>> {};

struct missing_kit : plus<not_at<blanks, sor<comma, eof>>, utf8::any> {};
struct if_no : seq<STAVE_KEYWORD("if no"), blanks, must<missing_kit>> {};

struct detail : sor<tempo, hold, arc, rest, if_no, bare_rest> {};

struct dose_end : eof {};
struct detail_separator : seq<blanks, comma, blanks> {};
struct dose_amount : seq<opt<work>, opt<blanks, at_sign, blanks, load>> {};
struct dose_body : seq<dose_amount, star<detail_separator, must<detail>>, blanks, must<dose_end>> {
};

// How a block runs.
struct rounds_word : sor<STAVE_KEYWORD("rounds"), STAVE_KEYWORD("round")> {};
struct round_count : seq<whole_number, blanks, rounds_word> {};
struct clause : sor<rest, round_count, bare_rest> {};
struct format_end : eof {};
struct format_body
    : sor<eof,
          seq<must<clause>, star<blanks, comma, blanks, must<clause>>, blanks, must<format_end>>> {
};

// Dates and kit.
struct two_digits : rep<2, digit> {};
struct date_digits : seq<rep<4, digit>, dash, two_digits, dash, two_digits> {};
struct date : seq<date_digits, not_at<digit>> {};
struct weekday : seq<word_text, plus<blank>> {};
struct meridiem : sor<STAVE_KEYWORD("am"), STAVE_KEYWORD("pm")> {};
struct clock_hours : seq<digit, opt<digit>> {};
struct clock : sor<seq<clock_hours, one<':'>, two_digits, not_at<digit>, opt<blanks, meridiem>>,
                   seq<clock_hours, blanks, meridiem>> {};
struct limit_time : time_quantity {};
struct time_limit : seq<STAVE_KEYWORD("for"), blanks, must<limit_time>> {};
struct zone_name : seq<alpha, plus<sor<alnum, one<'/', '_', '-', '+'>>>> {};
struct when_end : eof {};
struct when_body : seq<opt<weekday>, must<date>, blanks, must<clock>, opt<blanks, time_limit>,
                       opt<blanks, comma, blanks, must<zone_name>>, blanks, must<when_end>> {};
struct zone_end : eof {};
struct zone_body : seq<must<zone_name>, must<zone_end>> {};

struct kit_count : seq<whole_number, plus<blank>> {};
struct kit_word : seq<not_at<unit>, not_at<times>, word_text> {};
struct kit_name : list<kit_word, plus<blank>> {};
struct kit_size : sor<decimal_number, whole_number> {};
struct kit_unit : unit {};
struct kit_sizes : seq<list<kit_size, plus<blank>>, blanks, must<kit_unit>> {};
struct kit_thing : seq<opt<kit_count>, must<kit_name>, opt<blanks, kit_sizes>> {};
struct kit_end : eof {};
struct kit_body : seq<kit_thing, star<blanks, comma, blanks, kit_thing>, blanks, must<kit_end>> {};

// Faults.
struct fault_text : plus<not_at<blanks, sor<arrow, eof>>, utf8::any> {};
struct fault_arrow : arrow {};
struct fault_mend : plus<not_at<blanks, sor<arrow, eof>>, utf8::any> {};
struct fault_end : eof {};
struct fault_body : seq<must<fault_text>, blanks, must<fault_arrow>, blanks, must<fault_mend>,
                        blanks, must<fault_end>> {};

// Definitions of movements.
struct counted_unit : unit {};
struct counted_end : eof {};
struct counted_in_body : seq<must<counted_unit>, star<blanks, comma, blanks, must<counted_unit>>,
                             blanks, must<counted_end>> {};

struct both_sides : STAVE_KEYWORD("both") {};
struct defined_sides : sor<both_sides, each_side, alternating> {};
struct sides_end : eof {};
struct sides_line_body : seq<must<defined_sides>, blanks, must<sides_end>> {};

struct pattern_word : word_of<pattern_words> {};
struct pattern_end : eof {};
struct pattern_line_body : seq<must<pattern_word>, star<blanks, comma, blanks, must<pattern_word>>,
                               blanks, must<pattern_end>> {};

struct speed_amount : quantity {};
struct per_word : STAVE_KEYWORD("per") {};
struct per_unit : sor<quantity, unit> {};
struct speed_end : eof {};
struct speed_line_body : seq<must<speed_amount>, blanks, must<per_word>, blanks, must<per_unit>,
                             blanks, must<speed_end>> {};

struct rest_line_end : eof {};
struct rest_line_body : seq<must<rest_time>, opt<blanks, rest_doing>, blanks, must<rest_line_end>> {
};

}  // namespace stave::grammar
