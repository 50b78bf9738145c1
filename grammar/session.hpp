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

// Dates.
struct two_digits : rep<2, digit> {};
struct date_digits : seq<rep<4, digit>, dash, two_digits, dash, two_digits> {};
struct date : seq<date_digits, not_at<digit>> {};

// Amounts.
struct max_unit : unit {};
// "max-8" begins a list; the word leaves no trace where it is only looked at.
struct max_alone : seq<STAVE_KEYWORD("max"), not_at<blanks, dash>> {};
struct max_amount : seq<at<max_alone>, max_word, opt<blanks, max_unit>> {};
struct more_word : STAVE_KEYWORD("more") {};
struct or_more : seq<STAVE_KEYWORD("or"), blanks, must<more_word>> {};
struct total : STAVE_KEYWORD("total") {};
struct by_word : STAVE_KEYWORD("by") {};
struct up_step : quantity {};
struct up_by : seq<STAVE_KEYWORD("up"), blanks, must<by_word>, blanks, must<up_step>> {};
struct amount : sor<max_amount, seq<series, opt<blanks, sor<or_more, total, up_by>>>> {};

// A cluster, or what joined movements do in one set: (2 + 2 + 2, rest 15 s).
struct group_times : quantity {};
struct group_part : sor<max_word, seq<quantity, opt<blanks, times, blanks, must<group_times>>>> {};
struct group_pause : time_quantity {};
struct group_rest : seq<STAVE_KEYWORD("rest"), blanks, must<group_pause>> {};
struct group_close : one<')'> {};
struct group
    : seq<one<'('>, blanks, must<group_part>, star<blanks, plus_sign, blanks, must<group_part>>,
          opt<blanks, comma, blanks, must<group_rest>>, blanks, must<group_close>> {};

struct set_amount : sor<group, amount> {};
struct sets_tail : seq<times, blanks, must<set_amount>> {};
struct waves_of : STAVE_KEYWORD("of") {};
struct waves_values : series {};
struct waves_tail : seq<sor<STAVE_KEYWORD("waves"), STAVE_KEYWORD("wave")>, blanks, must<waves_of>,
                        blanks, must<waves_values>> {};
struct joined_amount : amount {};
struct plus_tail : plus<plus_sign, blanks, must<joined_amount>, blanks> {};
struct next_amount : sor<group, amount> {};
struct then_tail : seq<STAVE_KEYWORD("then"), blanks, must<next_amount>,
                       opt<blanks, sor<sets_tail, waves_tail>>> {};

struct ladder_values : series {};
struct ladder_work : seq<STAVE_KEYWORD("ladder"), blanks, must<ladder_values>> {};
struct best_of : STAVE_KEYWORD("of") {};
struct best_count : whole_number {};
struct best_work : seq<STAVE_KEYWORD("best"), blanks, must<best_of>, blanks, must<best_count>> {};
struct build_to : STAVE_KEYWORD("to") {};
struct build_amount : series {};
struct build_work
    : seq<STAVE_KEYWORD("build"), blanks, must<build_to>, blanks, must<build_amount>> {};
struct steps_work : seq<sor<group, amount>, opt<blanks, sor<sets_tail, waves_tail, plus_tail>>,
                        star<blanks, then_tail>> {};

struct within_time : time_quantity {};
struct within : seq<STAVE_KEYWORD("in"), not_at<blanks, STAVE_KEYWORD("reserve")>, blanks,
                    must<within_time>> {};
struct work : seq<sor<seq<at<digit>, steps_work>, ladder_work, best_work, build_work, steps_work>,
                  opt<blanks, within>, opt<blanks, side>> {};

// Efforts: scales that say how hard, without a weight.
struct scale_number : series {};
struct rpe : seq<STAVE_KEYWORD("RPE"), blanks, must<scale_number>> {};
struct reserve_scale : seq<STAVE_KEYWORD("RIR"), blanks, must<scale_number>> {};
struct zone_scale : seq<STAVE_KEYWORD("zone"), blanks, must<scale_number>> {};
struct heart_rate : seq<STAVE_KEYWORD("heart rate"), blanks, must<scale_number>> {};
struct effort_scale : sor<rpe, reserve_scale, zone_scale, heart_rate> {};

// Loads.
struct bodyweight
    : sor<STAVE_KEYWORD("bodyweight"), STAVE_KEYWORD("body weight"), STAVE_KEYWORD("BW")> {};
struct empty_bar : STAVE_KEYWORD("empty bar") {};
struct last_time : STAVE_KEYWORD("last time") {};
struct band_name : label {};
struct helping : STAVE_KEYWORD("helping") {};
struct band_load : seq<STAVE_KEYWORD("band"), blanks, must<band_name>, opt<blanks, helping>> {};

// What a share is of; `and` belongs to the name.
struct reference_end
    : sor<comma, at_sign, eof, STAVE_KEYWORD("plus"), STAVE_KEYWORD("minus"), STAVE_KEYWORD("then"),
          STAVE_KEYWORD("each"), seq<STAVE_KEYWORD("on"), blanks, digit>> {};
struct reference : plus<not_at<blanks, reference_end>, utf8::any> {};
struct share_of : seq<STAVE_KEYWORD("of"), blanks, must<reference>> {};
struct load_per : sor<quantity, unit> {};
struct per_load : seq<STAVE_KEYWORD("per"), blanks, must<load_per>> {};
struct implement_weight : sor<bodyweight, series> {};
struct implements : seq<times, blanks, must<implement_weight>> {};
struct rep_max : STAVE_KEYWORD("rep max") {};
struct test_pace : STAVE_KEYWORD("pace") {};
struct effort_word : STAVE_KEYWORD("effort") {};
struct in_reserve : STAVE_KEYWORD("in reserve") {};
struct load_place : seq<not_at<bodyweight>, sor<label, left_side, right_side>> {};
struct measured_load
    : seq<series,
          opt<blanks, sor<seq<implements, opt<blanks, sor<share_of, load_place>>>, share_of,
                          per_load, rep_max, test_pace, effort_word, in_reserve, load_place>>> {};
struct minus_word : STAVE_KEYWORD("minus") {};
struct shift_amount : series {};
struct shift : seq<sor<STAVE_KEYWORD("plus"), minus_word>, blanks, must<shift_amount>> {};
struct load_term
    : seq<sor<bodyweight, empty_bar, last_time, band_load, effort_scale, measured_load>,
          opt<blanks, shift>> {};
struct load_then : STAVE_KEYWORD("then") {};
struct load : seq<must<load_term>,
                  star<blanks, sor<STAVE_KEYWORD("and"), load_then>, blanks, must<load_term>>> {};

// Details.
struct phase : sor<seq<digit, opt<digit>>, one<'x', 'X'>, multiplication_sign, utf8::one<0x425>> {};
struct compact_phase : sor<digit, one<'x', 'X'>, multiplication_sign, utf8::one<0x425>> {};
struct phases_with_dashes : seq<phase, dash, phase, dash, phase, dash, phase> {};
struct phases_compact : rep<4, compact_phase> {};
struct tempo_phases : seq<sor<phases_with_dashes, phases_compact>, not_at<sor<alnum, dash>>> {};
struct tempo : seq<STAVE_KEYWORD("tempo"), blanks, must<tempo_phases>> {};
struct lower_time : time_quantity {};
struct only_word : STAVE_KEYWORD("only") {};
struct lower_only : seq<STAVE_KEYWORD("lower"), blanks, must<lower_time>, blanks, must<only_word>> {
};
struct breath_in_word : STAVE_KEYWORD("in") {};
struct breath_time : time_quantity {};
struct breath_in
    : seq<STAVE_KEYWORD("breath"), blanks, must<breath_in_word>, blanks, must<breath_time>> {};
struct breath_out : seq<STAVE_KEYWORD("out"), blanks, must<breath_time>> {};

struct arc_angle : seq<quantity, opt<blanks, label>> {};
struct arc_end : seq<quantity, opt<blanks, label>> {};
struct arc : seq<STAVE_KEYWORD("arc"), blanks, must<arc_angle>,
                 opt<blanks, STAVE_KEYWORD("to"), blanks, must<arc_end>>> {};
struct hold_angle : quantity {};
struct hold_at : seq<STAVE_KEYWORD("hold at"), blanks, must<hold_angle>> {};
struct hold_time : time_quantity {};
struct hold : seq<STAVE_KEYWORD("hold"), blanks, must<hold_time>, opt<blanks, label>> {};
struct pause : seq<STAVE_KEYWORD("pause"), blanks, must<hold_time>, opt<blanks, label>> {};
struct height : quantity {};
struct from_height : seq<STAVE_KEYWORD("from"), blanks, must<height>> {};
struct over_height : seq<STAVE_KEYWORD("over"), blanks, must<height>> {};
struct incline_value : series {};
struct incline : seq<STAVE_KEYWORD("incline"), blanks, must<incline_value>> {};

struct between_rounds : STAVE_KEYWORD("rounds") {};
struct between_sets : STAVE_KEYWORD("sets") {};
struct between_movements : STAVE_KEYWORD("movements") {};
struct between_sides : STAVE_KEYWORD("sides") {};
struct between_stations : STAVE_KEYWORD("stations") {};
struct between_blocks : STAVE_KEYWORD("blocks") {};
struct rest_place : sor<between_rounds, between_sets, between_movements, between_sides,
                        between_stations, between_blocks> {};
struct between : seq<STAVE_KEYWORD("between"), blanks, must<rest_place>> {};
struct as_needed : STAVE_KEYWORD("as needed") {};
struct as_the_work : STAVE_KEYWORD("as long as the work") {};
struct walk_back : STAVE_KEYWORD("walk back") {};
struct rest_doing : label {};
struct rest_length
    : sor<as_needed, as_the_work, walk_back, seq<time_range, opt<blanks, rest_doing>>> {};
struct rest : seq<STAVE_KEYWORD("rest"), blanks, must<rest_length>, opt<blanks, between>> {};
// "30 s between sides", without the word rest.
struct bare_rest : seq<time_range, blanks, must<between>> {};
// How long a rest as needed takes, about.
struct about_time : time_quantity {};
struct about : seq<STAVE_KEYWORD("about"), blanks, must<about_time>> {};

struct load_rises : STAVE_KEYWORD("rises") {};
struct load_falls : STAVE_KEYWORD("falls") {};
struct load_way : sor<load_rises, load_falls> {};
struct load_change : seq<STAVE_KEYWORD("load"), blanks, must<load_way>> {};
struct swap_hands : STAVE_KEYWORD("hands every") {};
struct swap_every : quantity {};
struct swap : seq<STAVE_KEYWORD("swap"), blanks, must<swap_hands>, blanks, must<swap_every>> {};
struct then_swapped : STAVE_KEYWORD("then swapped") {};
struct wave_step : quantity {};
struct wave_up : STAVE_KEYWORD("up") {};
struct wave_down : STAVE_KEYWORD("down") {};
struct wave_way : sor<wave_up, wave_down> {};
struct each_wave
    : seq<STAVE_KEYWORD("each wave"), blanks, must<wave_step>, blanks, must<wave_way>> {};
struct left_first : STAVE_KEYWORD("left first") {};
struct right_first : STAVE_KEYWORD("right first") {};
struct reserve : seq<series, blanks, in_reserve> {};

struct condition : plus<not_at<blanks, sor<comma, eof>>, utf8::any> {};
struct on_condition : seq<STAVE_KEYWORD("if"), blanks, must<condition>> {};

struct detail
    : sor<tempo, hold_at, hold, pause, rest, arc, lower_only, breath_in, breath_out, from_height,
          over_height, incline, about, load_change, swap, then_swapped, each_wave, left_first,
          right_first, on_condition, effort_scale, reserve, bare_rest> {};

struct dose_end : eof {};
struct detail_separator : seq<blanks, comma, blanks> {};
struct on_date : seq<STAVE_KEYWORD("on"), blanks, must<date>> {};
struct dose_amount : seq<opt<work>, opt<blanks, at_sign, blanks, load>, opt<blanks, on_date>> {};
struct dose_body : seq<dose_amount, star<detail_separator, must<detail>>, blanks, must<dose_end>> {
};

// How a block runs.
struct format_time : time_quantity {};
struct rounds_word : sor<STAVE_KEYWORD("rounds"), STAVE_KEYWORD("round")> {};
struct round_count : seq<whole_number, opt<blanks, STAVE_KEYWORD("to"), blanks, whole_number>,
                         blanks, rounds_word> {};
struct as_possible : STAVE_KEYWORD("rounds as possible in") {};
struct as_many
    : seq<sor<STAVE_KEYWORD("AMRAP"), seq<STAVE_KEYWORD("as many"), blanks, must<as_possible>>>,
          blanks, must<format_time>> {};
struct time_word : STAVE_KEYWORD("time") {};
struct for_time : seq<STAVE_KEYWORD("for"), blanks, must<time_word>> {};
struct cap : seq<STAVE_KEYWORD("cap"), blanks, must<format_time>> {};
struct next_movement : STAVE_KEYWORD("next movement") {};
struct all_movements : STAVE_KEYWORD("all movements") {};
struct every : seq<STAVE_KEYWORD("every"), blanks, must<format_time>,
                   opt<blanks, sor<next_movement, all_movements>>> {};
struct time_on : seq<time_quantity, blanks, STAVE_KEYWORD("on")> {};
struct time_off : seq<time_quantity, blanks, STAVE_KEYWORD("off")> {};
struct left_then_right : STAVE_KEYWORD("left then right") {};
struct right_then_left : STAVE_KEYWORD("right then left") {};
struct side_order : sor<left_then_right, right_then_left> {};
struct whole_block : seq<STAVE_KEYWORD("whole block"), blanks, must<side_order>> {};
struct people_count : whole_number {};
struct people : seq<STAVE_KEYWORD("people"), blanks, must<people_count>> {};
struct in_pairs : STAVE_KEYWORD("pairs") {};
struct in_threes : STAVE_KEYWORD("threes") {};
struct in_fours : STAVE_KEYWORD("fours") {};
struct group_size : sor<in_pairs, in_threes, in_fours> {};
struct in_groups : seq<STAVE_KEYWORD("in"), blanks, must<group_size>> {};
struct clause : sor<rest, about, round_count, as_many, for_time, cap, every, whole_block, people,
                    in_groups, time_on, time_off, bare_rest> {};
struct format_end : eof {};
struct format_body
    : sor<eof,
          seq<must<clause>, star<blanks, comma, blanks, must<clause>>, blanks, must<format_end>>> {
};

// Dates and kit.
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
// Units that sizes are given in; others may be things: a step, a jump rope.
inline constexpr auto size_words = sorted_words(std::array<std::string_view, 19>{
    "kg", "lb", "lbs", "pound", "pounds", "st", "stone", "m", "metre", "metres", "meter", "meters",
    "cm", "ft", "feet", "inch", "inches", "yd", "km"});
struct kit_word : seq<not_at<word_of<size_words>>, not_at<times>, word_text> {};
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
struct any_side : seq<STAVE_KEYWORD("each"), blanks, eof> {};
struct defined_sides : sor<both_sides, any_side, each_side, alternating> {};
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

struct starts_up : STAVE_KEYWORD("up") {};
struct starts_down : STAVE_KEYWORD("down") {};
struct starts_way : sor<starts_up, starts_down> {};
struct starts_end : eof {};
struct starts_body : seq<must<starts_way>, blanks, must<starts_end>> {};

// Several names or words with commas between them.
struct listed_name : plus<not_at<blanks, sor<comma, eof>>, utf8::any> {};
struct names_body : seq<must<listed_name>, star<blanks, comma, blanks, must<listed_name>>> {};

struct rest_line_end : eof {};
struct rest_line_body : seq<must<rest_length>, opt<blanks, between>,
                            opt<blanks, comma, blanks, must<about>>, blanks, must<rest_line_end>> {
};

// Athletes, plans and results.
struct measured : quantity {};
struct measure_end : eof {};
struct measure_body : seq<must<measured>, blanks, must<measure_end>> {};
struct reason : plus<not_at<blanks, eof>, utf8::any> {};
struct reason_tail : seq<comma, blanks, must<reason>> {};
struct days_end : eof {};
// "2026-12-03", "2026-12-03 18:30, gale", "2026-12-03 to 2026-12-10, harvest".
struct days_body
    : seq<must<date>, opt<blanks, clock>, opt<blanks, STAVE_KEYWORD("to"), blanks, must<date>>,
          opt<blanks, reason_tail>, blanks, must<days_end>> {};
struct moved_to : STAVE_KEYWORD("to") {};
struct moved_body : seq<must<date>, opt<blanks, clock>, blanks, must<moved_to>, blanks, must<date>,
                        opt<blanks, clock>, opt<blanks, reason_tail>, blanks, must<days_end>> {};
struct slot_comma : comma {};
struct slot_then : STAVE_KEYWORD("then") {};
struct slot_session : plus<not_at<blanks, sor<comma, slot_then, eof>>, utf8::any> {};
struct slot_group_name : plus<not_at<blanks, sor<comma, eof>>, utf8::any> {};
struct slot_group_word : STAVE_KEYWORD("group") {};
struct slot_group : seq<comma, blanks, must<slot_group_word>, blanks, must<slot_group_name>> {};
// "18:30 for 55 min, session 1 then session 2, group A": by turns, a week each.
struct slot_body : seq<must<clock>, opt<blanks, time_limit>, blanks, must<slot_comma>, blanks,
                       must<slot_session>, star<blanks, slot_then, blanks, must<slot_session>>,
                       opt<blanks, slot_group>, blanks, must<days_end>> {};
// "Saturday 2026-12-19 10:00, session 12".
struct once_body : seq<opt<weekday>, must<date>, blanks, slot_body> {};
struct week_word : STAVE_KEYWORD("week") {};
struct weeks_word : sor<STAVE_KEYWORD("weeks"), STAVE_KEYWORD("week")> {};
struct week_number : whole_number {};
struct every_weeks
    : seq<STAVE_KEYWORD("every"), blanks, must<week_number>, blanks, must<weeks_word>> {};
struct one_week : seq<must<week_word>, blanks, must<week_number>> {};
struct lighter_by : STAVE_KEYWORD("by") {};
struct lighter_body : seq<sor<every_weeks, one_week>, blanks, must<lighter_by>, blanks,
                          must<measured>, blanks, must<measure_end>> {};
struct wave_weeks : whole_number {};
struct wave_comma : comma {};
struct waves_each : STAVE_KEYWORD("each wave") {};
struct wave_steps : whole_number {};
struct steps_up
    : seq<sor<STAVE_KEYWORD("steps"), STAVE_KEYWORD("step")>, blanks, STAVE_KEYWORD("up")> {};
// "3 weeks, each wave 1 step up".
struct waves_body : seq<must<wave_weeks>, blanks, must<weeks_word>, blanks, must<wave_comma>,
                        blanks, must<waves_each>, blanks, must<wave_steps>, blanks, must<steps_up>,
                        blanks, must<measure_end>> {};
struct each_week : STAVE_KEYWORD("each week") {};
struct up_to : STAVE_KEYWORD("up to") {};
struct sets_word : sor<STAVE_KEYWORD("sets"), STAVE_KEYWORD("set")> {};
struct sets_step : seq<whole_number, blanks, sets_word> {};
struct rounds_step : seq<whole_number, blanks, rounds_word> {};
struct growth_limit : quantity {};
struct grow_body : seq<sor<sets_step, rounds_step, must<measured>>, opt<blanks, share_of>, blanks,
                       must<each_week>,
                       opt<blanks, comma, blanks, must<up_to>, blanks,
                           sor<sets_step, rounds_step, must<growth_limit>>>,
                       blanks, must<measure_end>> {};
struct did_body
    : seq<must<date>, star<blanks, comma, blanks, must<listed_name>>, blanks, must<days_end>> {};

}  // namespace stave::grammar
