// Which code a missing rule raises. Only rules behind a commit point of the
// grammar stand here; nothing else can fail for good.
#pragma once

#include "compiler/diagnostics/diagnostic.hpp"
#include "grammar/session.hpp"

namespace stave::parse {

template <typename Rule>
inline constexpr Code missing = Code::word_out_of_place;

template <typename Rule>
inline constexpr bool has_message = false;

#define STAVE_MISSING(rule, code)                              \
    template <>                                                \
    inline constexpr Code missing<grammar::rule> = Code::code; \
    template <>                                                \
    inline constexpr bool has_message<grammar::rule> = true;

STAVE_MISSING(movement_name, name_missing)
STAVE_MISSING(joined_name, name_missing)
STAVE_MISSING(head_end, sign_in_name)
STAVE_MISSING(unit_after_number, unit_expected)
STAVE_MISSING(range_end, range_end_missing)
STAVE_MISSING(list_value, list_value_missing)
STAVE_MISSING(next_amount, next_value_missing)
STAVE_MISSING(ladder_turn, ladder_end_missing)
STAVE_MISSING(ladder_step, ladder_end_missing)
STAVE_MISSING(side_word, side_expected)
STAVE_MISSING(set_amount, set_amount_missing)
STAVE_MISSING(joined_amount, joined_amount_missing)
STAVE_MISSING(band_name, band_which)
STAVE_MISSING(implement_weight, implement_weight)
STAVE_MISSING(load_term, load_expected)
STAVE_MISSING(tempo_phases, tempo_phases)
STAVE_MISSING(hold_time, time_expected)
STAVE_MISSING(rest_length, time_expected)
STAVE_MISSING(limit_time, time_expected)
STAVE_MISSING(time_end, range_end_missing)
STAVE_MISSING(arc_angle, angle_expected)
STAVE_MISSING(arc_end, angle_expected)
STAVE_MISSING(rest_place, between_what)
STAVE_MISSING(between, detail_expected)
STAVE_MISSING(condition, condition_expected)
STAVE_MISSING(detail, detail_expected)
STAVE_MISSING(clause, format_expected)
STAVE_MISSING(date, date_expected)
STAVE_MISSING(clock, clock_expected)
STAVE_MISSING(zone_name, zone_expected)
STAVE_MISSING(kit_name, kit_name)
STAVE_MISSING(kit_unit, kit_unit)
STAVE_MISSING(fault_text, text_missing)
STAVE_MISSING(fault_arrow, arrow_missing)
STAVE_MISSING(fault_mend, text_missing)
STAVE_MISSING(fault_end, arrow_twice)
STAVE_MISSING(counted_unit, counted_expected)
STAVE_MISSING(defined_sides, sides_line)
STAVE_MISSING(pattern_word, pattern_expected)
STAVE_MISSING(speed_amount, speed_form)
STAVE_MISSING(per_word, speed_form)
STAVE_MISSING(per_unit, speed_form)

STAVE_MISSING(more_word, or_more)
STAVE_MISSING(by_word, up_by)
STAVE_MISSING(up_step, number_expected)
STAVE_MISSING(group_part, group_part)
STAVE_MISSING(group_times, number_expected)
STAVE_MISSING(group_rest, group_rest)
STAVE_MISSING(group_pause, time_expected)
STAVE_MISSING(group_close, group_close)
STAVE_MISSING(waves_of, waves_of)
STAVE_MISSING(waves_values, waves_of)
STAVE_MISSING(ladder_values, number_expected)
STAVE_MISSING(best_of, best_of)
STAVE_MISSING(best_count, best_of)
STAVE_MISSING(build_to, build_to)
STAVE_MISSING(build_amount, build_to)
STAVE_MISSING(within_time, time_expected)
STAVE_MISSING(scale_number, effort_number)
STAVE_MISSING(reference, of_what)
STAVE_MISSING(load_per, per_what)
STAVE_MISSING(shift_amount, number_expected)
STAVE_MISSING(lower_time, time_expected)
STAVE_MISSING(only_word, lower_only)
STAVE_MISSING(breath_in_word, breath_form)
STAVE_MISSING(breath_time, time_expected)
STAVE_MISSING(hold_angle, angle_expected)
STAVE_MISSING(height, number_expected)
STAVE_MISSING(incline_value, number_expected)
STAVE_MISSING(about_time, time_expected)
STAVE_MISSING(about, about_time)
STAVE_MISSING(load_way, load_how)
STAVE_MISSING(swap_hands, swap_every)
STAVE_MISSING(swap_every, swap_every)
STAVE_MISSING(wave_step, number_expected)
STAVE_MISSING(wave_way, wave_way)
STAVE_MISSING(format_time, time_expected)
STAVE_MISSING(as_possible, as_many)
STAVE_MISSING(time_word, for_time)
STAVE_MISSING(side_order, whole_block)
STAVE_MISSING(people_count, number_expected)
STAVE_MISSING(group_size, in_pairs)
STAVE_MISSING(starts_way, starts_way)
STAVE_MISSING(listed_name, name_expected)
STAVE_MISSING(measured, number_expected)
STAVE_MISSING(reason, reason_missing)
STAVE_MISSING(moved_to, moved_to)
STAVE_MISSING(slot_comma, slot_session)
STAVE_MISSING(slot_session, slot_session)
STAVE_MISSING(slot_group_word, slot_group)
STAVE_MISSING(slot_group_name, slot_group)
STAVE_MISSING(wave_weeks, waves_form)
STAVE_MISSING(wave_comma, waves_form)
STAVE_MISSING(waves_each, waves_form)
STAVE_MISSING(wave_steps, waves_form)
STAVE_MISSING(steps_up, waves_form)
STAVE_MISSING(weeks_word, week_expected)
STAVE_MISSING(week_word, week_expected)
STAVE_MISSING(week_number, week_expected)
STAVE_MISSING(lighter_by, week_expected)
STAVE_MISSING(each_week, each_week)
STAVE_MISSING(up_to, up_to)
STAVE_MISSING(growth_limit, up_to)

#undef STAVE_MISSING

}  // namespace stave::parse
