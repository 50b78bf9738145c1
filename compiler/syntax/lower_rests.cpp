// Times, and the rests that are made of them.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compiler/parse/classify.hpp"
#include "compiler/syntax/lower_parts.hpp"

namespace stave::syntax {

namespace {

using parse::NodeKind;

// A word behind the number that is close to a unit: "2 sek".
bool reports_unknown_unit(const NodeReader& reader, const Value& value) {
    std::string_view behind = reader.text.substr(value.span.end);
    const std::size_t blanks = behind.find_first_not_of(' ');
    if (blanks == std::string_view::npos) return false;
    behind.remove_prefix(blanks);
    const std::size_t size = behind.find_first_of(" ,\r\n");
    const std::string_view word = behind.substr(0, size);
    const std::string_view near = parse::near_unit(word);
    if (near.empty()) return false;
    const auto begin = value.span.end + static_cast<std::uint32_t>(blanks);
    const Span span{begin, begin + static_cast<std::uint32_t>(word.size())};
    reader.report(Code::unknown_unit, span, {std::string(word), std::string(near)},
                  {replace(span, std::string(near))});
    return true;
}

// The value of a node that must be a time; `m` and `min` are told apart here.
bool is_time(const NodeReader& reader, const Value& value) {
    if (!value.has_unit && reports_unknown_unit(reader, value)) return false;
    if (!value.has_unit) {
        const std::string number = reader.said(value.span);
        reader.report(Code::time_unit, value.span, {number},
                      {{number + " s", {Edit{value.span, number + " s"}}},
                       {number + " min", {Edit{value.span, number + " min"}}}});
        return false;
    }
    if (dimension(value.quantity.unit) != Dimension::time) {
        std::vector<Fix> fixes;
        if (value.quantity.unit == Unit::metre) {
            const std::string minutes = to_decimal(value.quantity.value) + " min";
            fixes.push_back({minutes, {Edit{value.span, minutes}}});
        }
        reader.report(
            Code::time_dimension, value.span,
            {reader.said(value.span), std::string(dimension_name(dimension(value.quantity.unit)))},
            std::move(fixes));
        return false;
    }
    if (value.quantity.value == Ratio(0)) {
        reader.report(Code::amount_zero, value.span, {reader.said(value.span)});
        return false;
    }
    constexpr std::int64_t day_seconds = 24LL * 3600;
    if (in_base_units(value.quantity) > Ratio(day_seconds)) {
        reader.report(Code::number_too_large, value.span, {reader.said(value.span), "24 h"});
        return false;
    }
    return true;
}

// Both ends of "60 to 90 s", the lower one with the upper one's unit; one value is both.
bool read_ends(const NodeReader& reader, std::uint32_t node, Value& low, Value& high) {
    std::optional<Value> values[2];
    std::size_t count = 0;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        values[count] = read_quantity(reader, i);
        if (!values[count++]) return false;
    }
    if (count == 1) {
        low = high = *values[0];
        return true;
    }
    if (!values[0]->has_unit && values[1]->has_unit) {
        values[0]->has_unit = true;
        values[0]->quantity.unit = values[1]->quantity.unit;
    }
    low = *values[0];
    high = *values[1];
    return true;
}

// Gives two ends one unit; the upper one must be more.
bool order_ends(const NodeReader& reader, Value& low, Value& high) {
    if (low.span == high.span) return true;
    if (low.quantity.unit != high.quantity.unit) {
        const bool times = dimension(low.quantity.unit) == Dimension::time;
        low.quantity = convert(low.quantity, times ? Unit::second : Unit::metre);
        high.quantity = convert(high.quantity, low.quantity.unit);
    }
    if (in_base_units(low.quantity) < in_base_units(high.quantity)) return true;
    const Span span = cover(low.span, high.span);
    const std::string turned =
        fmt::format("{} to {} {}", to_decimal(high.quantity.value), to_decimal(low.quantity.value),
                    plural(high.quantity.unit));
    reader.report(Code::range_falls, span, {reader.said(span), turned, "one of the two alone"},
                  {{turned, {Edit{span, turned}}}});
    return false;
}

// What is done on the way of "rest 200 m jog"; nothing of a rest that only lasts.
std::optional<Span> way_of_rest(const NodeReader& reader, NodeRange nodes) {
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        if (reader.at(i).kind == NodeKind::rest_doing) return reader.at(i).span;
    }
    return std::nullopt;
}

// Whether a distance is hardly minutes whose unit was shortened: "rest 2 m".
bool is_way(const Value& value) {
    constexpr std::int64_t shortest_metres = 20;
    return value.has_unit && dimension(value.quantity.unit) == Dimension::length &&
           in_base_units(value.quantity) >= Ratio(shortest_metres);
}

bool is_short_way(const NodeReader& reader, const Value& value) {
    constexpr std::int64_t longest_metres = 10'000;
    if (in_base_units(value.quantity) <= Ratio(longest_metres)) return true;
    reader.report(Code::number_too_large, value.span, {reader.said(value.span), "10 km"});
    return false;
}

// "90 s", "60 to 90 s", "200 m" of "rest 200 m jog".
bool lower_rest_length(const NodeReader& reader, std::uint32_t node, NodeRange nodes, Rest& rest) {
    if (!read_ends(reader, node, rest.low, rest.high)) return false;
    rest.has_time = true;
    if (!is_way(rest.low) || !is_way(rest.high)) {
        return is_time(reader, rest.low) &&
               (rest.low.span == rest.high.span || is_time(reader, rest.high)) &&
               order_ends(reader, rest.low, rest.high);
    }
    rest.kind = RestKind::distance;
    const Span said = cover(rest.low.span, rest.high.span);
    if (!way_of_rest(reader, nodes)) {
        const std::string metres = reader.said(said);
        std::vector<Fix> fixes;
        for (const std::string_view way : {" walk", " jog"})
            fixes.push_back(replace(said, metres + std::string(way)));
        reader.report(Code::rest_way, said, {metres}, std::move(fixes));
        return false;
    }
    return is_short_way(reader, rest.high) && order_ends(reader, rest.low, rest.high);
}

}  // namespace

std::optional<Value> lower_time(const NodeReader& reader, std::uint32_t node) {
    auto value = read_quantity(reader, node);
    if (!value || !is_time(reader, *value)) return std::nullopt;
    return value;
}

std::optional<Rest> lower_rest(const NodeReader& reader, NodeRange nodes, Span span) {
    Rest rest;
    rest.span = span;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        switch (reader.at(i).kind) {
            case NodeKind::time_range:
                if (!lower_rest_length(reader, i, nodes, rest)) return std::nullopt;
                break;
            case NodeKind::as_needed:
                rest.kind = RestKind::as_needed;
                break;
            case NodeKind::as_the_work:
                rest.kind = RestKind::as_the_work;
                break;
            case NodeKind::walk_back:
                rest.kind = RestKind::walk_back;
                break;
            case NodeKind::about: {
                const auto time = lower_time(reader, i + 1);
                if (!time || !add_about(reader, {*time, reader.at(i).span}, &rest)) {
                    return std::nullopt;
                }
                break;
            }
            case NodeKind::rest_doing:
                rest.doing = reader.slice(reader.at(i).span);
                break;
            case NodeKind::between_rounds:
                rest.place = RestPlace::rounds;
                break;
            case NodeKind::between_sets:
                rest.place = RestPlace::sets;
                break;
            case NodeKind::between_movements:
                rest.place = RestPlace::movements;
                break;
            case NodeKind::between_sides:
                rest.place = RestPlace::sides;
                break;
            case NodeKind::between_stations:
                rest.place = RestPlace::stations;
                break;
            case NodeKind::between_blocks:
                rest.place = RestPlace::blocks;
                break;
            default:
                break;
        }
    }
    return rest;
}

bool add_about(const NodeReader& reader, const About& about, Rest* rest) {
    if (rest == nullptr || rest->kind != RestKind::as_needed || rest->has_time) {
        reader.report(Code::about_without_rest, about.span, {});
        return false;
    }
    rest->low = rest->high = about.time;
    rest->has_time = true;
    rest->span.end = about.span.end;
    return true;
}

bool pair_about(const NodeReader& reader, std::vector<Detail>& details) {
    for (std::size_t i = 0; i < details.size(); ++i) {
        const auto* about = std::get_if<About>(&details[i]);
        if (about == nullptr) continue;
        Rest* rest = i == 0 ? nullptr : std::get_if<Rest>(&details[i - 1]);
        if (!add_about(reader, *about, rest)) return false;
    }
    std::erase_if(details, [](const Detail& one) { return std::holds_alternative<About>(one); });
    return true;
}

}  // namespace stave::syntax
