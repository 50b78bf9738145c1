#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compiler/syntax/lower_parts.hpp"

namespace stave::syntax {

namespace {

using parse::NodeKind;

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

template <typename Kind>
std::optional<Kind> lower_hold(const NodeReader& reader, std::uint32_t node) {
    const auto time = lower_time(reader, node + 1);
    if (!time) return std::nullopt;
    Kind hold{*time, {}, reader.at(node).span};
    if (const auto label = reader.child(node, NodeKind::label)) {
        hold.label = reader.slice(reader.at(*label).span);
    }
    return hold;
}

template <typename Kind>
std::optional<Kind> with_time(const NodeReader& reader, std::uint32_t node) {
    const auto time = lower_time(reader, node + 1);
    return time ? std::optional(Kind{*time, reader.at(node).span}) : std::nullopt;
}

std::optional<HoldAt> lower_hold_at(const NodeReader& reader, std::uint32_t node) {
    const auto angle = read_quantity(reader, node + 1);
    if (!angle || !is_angle(reader, *angle)) return std::nullopt;
    return HoldAt{*angle, reader.at(node).span};
}

std::optional<Height> lower_height(const NodeReader& reader, std::uint32_t node) {
    const auto value = read_quantity(reader, node + 1);
    if (!value) return std::nullopt;
    if (!value->has_unit || dimension(value->quantity.unit) != Dimension::length ||
        value->quantity.value == Ratio(0)) {
        reader.report(Code::height_unit, value->span, {reader.said(value->span)});
        return std::nullopt;
    }
    return Height{reader.at(node).kind == NodeKind::over_height, *value, reader.at(node).span};
}

std::optional<Incline> lower_incline(const NodeReader& reader, std::uint32_t node) {
    auto value = lower_series(reader, node + 1);
    if (!value) return std::nullopt;
    for (const auto& one : value->values) {
        const bool slope =
            one && one->has_unit &&
            (one->quantity.unit == Unit::percent || one->quantity.unit == Unit::degree);
        if (slope) continue;
        const std::string said = reader.said(value->span);
        reader.report(Code::incline_unit, value->span, {said},
                      {replace(value->span, said + " %"), replace(value->span, said + " deg")});
        return std::nullopt;
    }
    return Incline{std::move(*value), reader.at(node).span};
}

// "RPE 8", "2 in reserve", the latter with its number first.
std::optional<LoadTerm> lower_effort(const NodeReader& reader, std::uint32_t node) {
    if (reader.at(node).kind != NodeKind::reserve) return lower_load_term(reader, node);
    auto amount = lower_series(reader, node + 1);
    if (!amount) return std::nullopt;
    return reserve_of(reader, std::move(*amount), reader.at(node).span);
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

bool lower_detail(const NodeReader& reader, std::uint32_t node, std::vector<Detail>& details) {
    const parse::Node& detail = reader.at(node);
    const Span span = detail.span;
    const auto add = [&](auto lowered, std::string_view what) {
        return add_once(reader, std::move(lowered), span, what, details);
    };
    switch (detail.kind) {
        case NodeKind::tempo:
            return add(std::optional(lower_tempo(reader, node)), "tempo");
        case NodeKind::lower_only:
            return add(with_time<LowerOnly>(reader, node), "lower");
        case NodeKind::breath_in:
        case NodeKind::breath_out: {
            const auto time = lower_time(reader, node + 1);
            if (time) details.emplace_back(Breath{detail.kind == NodeKind::breath_in, *time, span});
            return time.has_value();
        }
        case NodeKind::hold:
            return add(lower_hold<Hold>(reader, node), "hold");
        case NodeKind::pause:
            return add(lower_hold<Pause>(reader, node), "pause");
        case NodeKind::hold_at:
            return add(lower_hold_at(reader, node), "hold at");
        case NodeKind::arc:
            return add(lower_arc(reader, node), "arc");
        case NodeKind::from_height:
        case NodeKind::over_height:
            return add(lower_height(reader, node), "the height");
        case NodeKind::incline:
            return add(lower_incline(reader, node), "incline");
        case NodeKind::load_change: {
            const bool rises = reader.at(node + 1).kind == NodeKind::load_rises;
            return add(std::optional(LoadChange{rises, span}), "load");
        }
        case NodeKind::swap: {
            const auto every = read_quantity(reader, node + 1);
            if (!every) return false;
            return add(std::optional(SwapHands{*every, span}), "swap hands");
        }
        case NodeKind::then_swapped:
            return add(std::optional(Swapped{span}), "then swapped");
        case NodeKind::each_wave: {
            const auto step = read_quantity(reader, node + 1);
            if (!step) return false;
            const bool up = reader.child(node, NodeKind::wave_up).has_value();
            return add(std::optional(EachWave{*step, up, span}), "each wave");
        }
        case NodeKind::left_first:
        case NodeKind::right_first:
            return add(std::optional(SideFirst{detail.kind == NodeKind::left_first, span}),
                       "the first side");
        case NodeKind::on_condition: {
            const Span reason = reader.at(node + 1).span;
            return add(std::optional(Condition{{reader.slice(reason), reason}}), "if");
        }
        case NodeKind::about: {
            const auto time = lower_time(reader, node + 1);
            if (time) details.emplace_back(About{*time, span});
            return time.has_value();
        }
        case NodeKind::rest: {
            auto rest = lower_rest(reader, {node + 1, detail.after}, span);
            if (rest) details.emplace_back(*rest);
            return rest.has_value();
        }
        default: {
            auto term = lower_effort(reader, node);
            if (term) details.emplace_back(Effort{std::move(*term)});
            return term.has_value();
        }
    }
}

}  // namespace stave::syntax
