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
    reader.report(Code::unknown_unit, span,
                  {std::string(word), fmt::format("Write {} if that is meant.", near)},
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

// Gives the lower end of "60 to 90 s" the upper end's unit.
bool lower_time_range(const NodeReader& reader, std::uint32_t node, Value& low, Value& high) {
    std::optional<Value> values[2];
    std::size_t count = 0;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        values[count] = read_quantity(reader, i);
        if (!values[count++]) return false;
    }
    if (count == 1) {
        low = high = *values[0];
        return is_time(reader, low);
    }
    if (!values[0]->has_unit && values[1]->has_unit) {
        values[0]->has_unit = true;
        values[0]->quantity.unit = values[1]->quantity.unit;
    }
    low = *values[0];
    high = *values[1];
    if (!is_time(reader, low) || !is_time(reader, high)) return false;
    if (low.quantity.unit != high.quantity.unit) {
        low.quantity = convert(low.quantity, Unit::second);
        high.quantity = convert(high.quantity, Unit::second);
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

Tempo lower_tempo(const NodeReader& reader, std::uint32_t node) {
    Tempo tempo;
    tempo.span = reader.at(node).span;
    const std::string_view phases = reader.slice(reader.at(node + 1).span);
    // Compact phases are one character each; others have dashes between them.
    const bool dashes = phases.find_first_of("-\xE2") != std::string_view::npos;
    std::size_t phase = 0;
    bool digit_before = false;
    for (std::size_t i = 0; i < phases.size() && phase < 4;) {
        const char c = phases[i];
        if (c >= '0' && c <= '9') {
            std::int64_t& value = tempo.phases[digit_before ? phase - 1 : phase];
            value = (digit_before ? value * 10 : 0) + (c - '0');
            if (!digit_before) ++phase;
            digit_before = dashes;
            ++i;
            continue;
        }
        digit_before = false;
        // An X of any alphabet, two bytes beyond ASCII; a dash is one or three.
        const bool dash = c == '-' || c == '\xE2';
        if (!dash) tempo.phases[phase++] = -1;
        i += c == '\xE2' ? 3U : static_cast<unsigned char>(c) >= 0x80 ? 2U : 1U;
    }
    return tempo;
}

std::optional<Angle> lower_angle(const NodeReader& reader, std::uint32_t node) {
    const auto value = read_quantity(reader, node + 1);
    if (!value) return std::nullopt;
    Angle angle{*value, {}};
    if (const auto label = reader.child(node, NodeKind::label)) {
        angle.label = reader.slice(reader.at(*label).span);
    }
    return angle;
}

bool is_angle(const NodeReader& reader, const Value& value) {
    if (!value.has_unit || dimension(value.quantity.unit) != Dimension::angle) {
        const std::string number = reader.said(value.span);
        std::vector<Fix> fixes;
        if (!value.has_unit)
            fixes.push_back({number + " deg", {Edit{value.span, number + " deg"}}});
        reader.report(
            Code::angle_unit, value.span,
            {number, value.has_unit ? std::string(dimension_name(dimension(value.quantity.unit)))
                                    : std::string("a bare number")},
            std::move(fixes));
        return false;
    }
    constexpr std::int64_t half_turn = 180;
    if (value.quantity.value > Ratio(half_turn)) {
        reader.report(Code::arc_too_wide, value.span, {reader.said(value.span)});
        return false;
    }
    return true;
}

std::optional<Arc> lower_arc(const NodeReader& reader, std::uint32_t node) {
    Arc arc;
    arc.span = reader.at(node).span;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        auto angle = lower_angle(reader, i);
        if (!angle) return std::nullopt;
        if (reader.at(i).kind == NodeKind::arc_angle) arc.first = *angle;
        if (reader.at(i).kind == NodeKind::arc_end) arc.second = *angle;
    }
    if (arc.second && !arc.first.value.has_unit && arc.second->value.has_unit) {
        arc.first.value.has_unit = true;
        arc.first.value.quantity.unit = arc.second->value.quantity.unit;
    }
    if (!is_angle(reader, arc.first.value)) return std::nullopt;
    if (arc.second && !is_angle(reader, arc.second->value)) return std::nullopt;
    return arc;
}

std::optional<Hold> lower_hold(const NodeReader& reader, std::uint32_t node) {
    const auto time = lower_time(reader, node + 1);
    if (!time) return std::nullopt;
    Hold hold{*time, {}, reader.at(node).span};
    if (const auto label = reader.child(node, NodeKind::label)) {
        hold.label = reader.slice(reader.at(*label).span);
    }
    return hold;
}

// Keeps a detail that excludes a second one of its kind.
template <typename Kind>
bool add_once(const NodeReader& reader, std::optional<Kind> detail, Span span,
              std::string_view what, std::vector<Detail>& details) {
    if (!detail) return false;
    const bool twice = std::ranges::any_of(
        details, [](const Detail& other) { return std::holds_alternative<Kind>(other); });
    if (twice) reader.report(Code::detail_twice, span, {std::string(what)});
    details.emplace_back(std::move(*detail));
    return !twice;
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
                if (!lower_time_range(reader, i, rest.low, rest.high)) return std::nullopt;
                break;
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
            default:
                break;
        }
    }
    return rest;
}

bool lower_detail(const NodeReader& reader, std::uint32_t node, std::vector<Detail>& details) {
    const parse::Node& detail = reader.at(node);
    switch (detail.kind) {
        case NodeKind::tempo:
            return add_once<Tempo>(reader, lower_tempo(reader, node), detail.span, "tempo",
                                   details);
        case NodeKind::hold:
            return add_once<Hold>(reader, lower_hold(reader, node), detail.span, "hold", details);
        case NodeKind::arc:
            return add_once<Arc>(reader, lower_arc(reader, node), detail.span, "arc", details);
        case NodeKind::if_no: {
            const Span kit = reader.at(node + 1).span;
            return add_once<IfNo>(reader, IfNo{{reader.slice(kit), kit}}, detail.span, "if no",
                                  details);
        }
        case NodeKind::rest: {
            auto rest = lower_rest(reader, {node + 1, detail.after}, detail.span);
            if (rest) details.emplace_back(*rest);
            return rest.has_value();
        }
        default:
            return true;
    }
}

}  // namespace stave::syntax
