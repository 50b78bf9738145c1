#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compiler/syntax/lower_parts.hpp"

namespace stave::syntax {

namespace {

using parse::NodeKind;

constexpr std::size_t most_values = 100;

// The digits of a value without its unit, as typed.
std::string bare(const NodeReader& reader, const Value& value) {
    const std::string_view said = reader.slice(value.span);
    return std::string(said.substr(0, said.find_first_not_of("0123456789.:/")));
}

std::string unit_text(const Series& series) {
    const auto& last = series.values.back();
    if (!last || !last->has_unit) return "";
    // Minutes and seconds with a colon carry their unit in the number.
    return fmt::format(" {}", plural(last->quantity.unit));
}

bool is_time(const Value& value) {
    return value.has_unit && dimension(value.quantity.unit) == Dimension::time;
}

// Gives the unit at the end to all values. Two units are refused, but for times,
// which all become seconds.
bool spread_unit(const NodeReader& reader, Series& series) {
    const auto last = std::ranges::find_if(series.values.rbegin(), series.values.rend(),
                                           [](const auto& value) { return value.has_value(); });
    if (last == series.values.rend()) return true;
    const Value end = **last;
    bool all_in_seconds = false;
    for (auto& value : series.values) {
        if (!value || value->span == end.span) continue;
        const bool same =
            value->has_unit == end.has_unit && value->quantity.unit == end.quantity.unit;
        if (same) continue;
        if (!value->has_unit && !reader.slice(end.span).contains(':')) {
            value->has_unit = end.has_unit;
            value->quantity.unit = end.quantity.unit;
            continue;
        }
        if (!is_time(*value) || !is_time(end)) {
            reader.report(Code::list_mixed, series.span,
                          {reader.said(value->span), reader.said(end.span)});
            return false;
        }
        all_in_seconds = true;
    }
    for (auto& value : series.values) {
        if (all_in_seconds && value) value->quantity = convert(value->quantity, Unit::second);
    }
    return true;
}

bool rises(const Value& low, const Value& high) {
    return in_base_units(low.quantity) < in_base_units(high.quantity);
}

// "8-10" is refused, "10-8" is two sets.
bool is_rising_pair(const NodeReader& reader, const Series& series, bool joined_by_dash) {
    if (!joined_by_dash || series.values.size() != 2) return false;
    if (!series.values[0] || !series.values[1] || !rises(*series.values[0], *series.values[1])) {
        return false;
    }
    const std::string first = bare(reader, *series.values[0]);
    const std::string second = bare(reader, *series.values[1]);
    // "2:00" says its unit.
    const bool by_clock = reader.slice(series.span).contains(':');
    const std::string unit = by_clock ? "" : unit_text(series);
    const std::string range = fmt::format("{} to {}{}", first, second, unit);
    const std::string pair = fmt::format("{} then {}{}", first, second, unit);
    reader.report(Code::rising_pair, series.span,
                  {std::string(reader.slice(series.span)), range, pair},
                  {replace(series.span, range), replace(series.span, pair)});
    return true;
}

bool is_falling_range(const NodeReader& reader, const Series& series) {
    if (series.form != SeriesForm::range || rises(*series.values[0], *series.values[1]))
        return false;
    const std::string first = bare(reader, *series.values[0]);
    const std::string second = bare(reader, *series.values[1]);
    const std::string range = fmt::format("{} to {}{}", second, first, unit_text(series));
    const std::string pair = fmt::format("{}-{}{}", first, second, unit_text(series));
    reader.report(Code::range_falls, series.span,
                  {reader.said(series.span), range, pair + " for two values"},
                  {replace(series.span, range), replace(series.span, pair)});
    return true;
}

// Turning points must differ, turn, and be reached by the step.
bool ladder_is_sound(const NodeReader& reader, const Series& series) {
    Ratio direction(0);
    for (std::size_t i = 0; i + 1 < series.values.size(); ++i) {
        const Value& from = *series.values[i];
        const Value& to = *series.values[i + 1];
        const Ratio climb = to.quantity.value - from.quantity.value;
        const std::string said(reader.slice(series.span));
        if (climb == Ratio(0)) {
            reader.report(Code::ladder_flat, series.span, {said});
            return false;
        }
        if (climb * direction > Ratio(0)) {
            reader.report(Code::ladder_turn, series.span, {said});
            return false;
        }
        direction = climb;
        const Ratio steps = climb / Ratio(series.step);
        if (!steps.is_whole()) {
            reader.report(Code::ladder_step, series.span,
                          {std::to_string(series.step), to_decimal(to.quantity.value)});
            return false;
        }
    }
    return true;
}

// One value of a series: a quantity, or `max`, which leaves it missing.
bool add_value(const NodeReader& reader, std::uint32_t node, Series& series) {
    if (reader.at(node).kind == NodeKind::max_word) {
        series.values.emplace_back(std::nullopt);
    } else if (reader.at(node).kind == NodeKind::quantity) {
        const auto value = read_quantity(reader, node);
        if (!value) return false;
        if (value->quantity.value == Ratio(0)) {
            reader.report(Code::amount_zero, value->span, {std::string(reader.slice(value->span))});
            return false;
        }
        series.values.emplace_back(*value);
    } else {
        return true;
    }
    series.span.end = reader.at(node).span.end;
    if (series.values.back()) series.span.end = series.values.back()->span.end;
    return true;
}

SeriesForm form_of(NodeKind tail) {
    switch (tail) {
        case NodeKind::range_tail:
            return SeriesForm::range;
        case NodeKind::list_tail:
            return SeriesForm::list;
        case NodeKind::ladder_tail:
            return SeriesForm::ladder;
        default:
            return SeriesForm::single;
    }
}

bool read_tail(const NodeReader& reader, std::uint32_t tail, Series& series) {
    series.form = form_of(reader.at(tail).kind);
    for (std::uint32_t i = tail + 1; i < reader.at(tail).after; i = reader.at(i).after) {
        if (reader.at(i).kind == NodeKind::ladder_by) {
            const auto step = read_whole(reader, reader.at(i + 1).span);
            if (!step) return false;
            if (*step == 0) {
                reader.report(Code::amount_zero, reader.at(i + 1).span, {"0"});
                return false;
            }
            series.step = *step;
            series.span.end = reader.at(i + 1).span.end;
        } else if (!add_value(reader, i, series)) {
            return false;
        }
    }
    if (series.values.size() > most_values) {
        reader.report(Code::too_many, series.span,
                      {"values in one list", std::to_string(most_values)});
        return false;
    }
    return true;
}

}  // namespace

std::optional<Series> lower_series(const NodeReader& reader, std::uint32_t node) {
    Series series;
    series.span = reader.at(node).span;
    bool joined_by_dash = false;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        joined_by_dash = reader.at(i).kind == NodeKind::list_tail;
        const NodeKind kind = reader.at(i).kind;
        const bool value = kind == NodeKind::quantity || kind == NodeKind::max_word;
        const bool ok = value ? add_value(reader, i, series) : read_tail(reader, i, series);
        if (!ok) return std::nullopt;
    }
    if (!spread_unit(reader, series)) return std::nullopt;
    if (is_rising_pair(reader, series, joined_by_dash) || is_falling_range(reader, series))
        return std::nullopt;
    if (series.form == SeriesForm::ladder && !ladder_is_sound(reader, series)) return std::nullopt;
    return series;
}

}  // namespace stave::syntax
