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
STAVE_MISSING(next_value, next_value_missing)
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
STAVE_MISSING(rest_time, time_expected)
STAVE_MISSING(limit_time, time_expected)
STAVE_MISSING(time_end, range_end_missing)
STAVE_MISSING(arc_angle, angle_expected)
STAVE_MISSING(arc_end, angle_expected)
STAVE_MISSING(rest_place, between_what)
STAVE_MISSING(between, detail_expected)
STAVE_MISSING(missing_kit, kit_name)
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

#undef STAVE_MISSING

}  // namespace stave::parse
