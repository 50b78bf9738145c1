#include <fmt/format.h>

#include <utility>

#include "compiler/syntax/lower_parts.hpp"

namespace stave::syntax {

namespace {

using parse::NodeKind;

bool is_nothing(const NodeReader& reader, Ratio value, Span span) {
    if (value != Ratio(0)) return false;
    reader.report(Code::amount_zero, span, {reader.said(span)});
    return true;
}

bool measures_kit(Unit unit) {
    return dimension(unit) == Dimension::mass || dimension(unit) == Dimension::length;
}

std::optional<KitThing> lower_thing(const NodeReader& reader, std::uint32_t node) {
    KitThing thing;
    thing.span = reader.at(node).span;
    std::optional<Unit> unit;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        const Span span = reader.at(i).span;
        switch (reader.at(i).kind) {
            case NodeKind::kit_count: {
                const auto count = read_whole(reader, {span.begin, span.end});
                if (!count || is_nothing(reader, *count, span)) return std::nullopt;
                thing.count = *count;
                break;
            }
            case NodeKind::kit_name:
                thing.name = reader.slice(span);
                thing.name_span = span;
                break;
            case NodeKind::kit_size: {
                const auto number = read_number(reader, i);
                if (!number || is_nothing(reader, number->value, span)) return std::nullopt;
                thing.sizes.push_back({{number->value, Unit::reps}, true, {}, span});
                break;
            }
            case NodeKind::kit_unit:
                unit = find_unit(reader.slice(span));
                if (!measures_kit(unit.value())) {
                    reader.report(Code::kit_unit, span, {reader.said(span)});
                    return std::nullopt;
                }
                break;
            default:
                break;
        }
    }
    for (Value& size : thing.sizes)
        size.quantity.unit = unit.value_or(Unit::kilogram);
    return thing;
}

}  // namespace

std::optional<Kit> lower_kit(const NodeReader& reader, NodeRange nodes) {
    Kit kit;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        auto thing = lower_thing(reader, i);
        if (!thing) return std::nullopt;
        kit.things.push_back(std::move(*thing));
    }
    return kit;
}

std::optional<CountedIn> lower_counted_in(const NodeReader& reader, NodeRange nodes) {
    CountedIn counted;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        const Span span = reader.at(i).span;
        const Unit unit = find_unit(reader.slice(span)).value();
        const Dimension what = dimension(unit);
        const bool countable = what == Dimension::count || what == Dimension::time ||
                               what == Dimension::length || what == Dimension::energy;
        if (!countable) {
            reader.report(Code::counted_expected, span, {reader.said(span)});
            return std::nullopt;
        }
        counted.units.emplace_back(unit, span);
    }
    return counted;
}

std::optional<SpeedLine> lower_speed(const NodeReader& reader, NodeRange nodes) {
    const auto amount = read_quantity(reader, nodes.first);
    if (!amount) return std::nullopt;
    const std::uint32_t per = reader.at(nodes.first).after;
    const std::uint32_t inner = per + 1;
    SpeedLine speed{*amount, {}};
    if (reader.at(inner).kind == NodeKind::quantity) {
        const auto unit = read_quantity(reader, inner);
        if (!unit) return std::nullopt;
        speed.per = *unit;
    } else {
        const Span span = reader.at(inner).span;
        speed.per = {{Ratio(1), find_unit(reader.slice(span)).value()}, true, {}, span};
    }
    const auto is_time = [](const Value& value) {
        return value.has_unit && dimension(value.quantity.unit) == Dimension::time;
    };
    const auto is_work = [](const Value& value) {
        const Dimension what = dimension(value.quantity.unit);
        return value.has_unit && (what == Dimension::count || what == Dimension::length);
    };
    const bool sound =
        ((is_time(*amount) && is_work(speed.per)) || (is_work(*amount) && is_time(speed.per))) &&
        amount->quantity.value > Ratio(0) && speed.per.quantity.value > Ratio(0);
    if (!sound) {
        reader.report(Code::speed_form, cover(amount->span, speed.per.span), {});
        return std::nullopt;
    }
    return speed;
}

PatternLine lower_patterns(const NodeReader& reader, NodeRange nodes) {
    PatternLine line;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        if (const auto pattern = grammar::find_pattern(reader.slice(reader.at(i).span))) {
            line.patterns.push_back(*pattern);
        }
    }
    return line;
}

Names lower_names(const NodeReader& reader, NodeRange nodes) {
    Names line;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        const Span span = reader.at(i).span;
        line.names.push_back({reader.slice(span), span});
    }
    return line;
}

std::optional<Measure> lower_measure(const NodeReader& reader, NodeRange nodes,
                                     grammar::LineKind kind) {
    const auto value = read_quantity(reader, nodes.first);
    if (!value) return std::nullopt;
    const Ratio number = value->quantity.value;
    const std::string bare = to_decimal(number);
    constexpr std::int64_t most_effort = 10;
    const std::string example = kind == grammar::LineKind::weeks ? "6" : "7";
    const auto report = [&](std::string_view what, std::vector<std::string> mends) {
        std::vector<Fix> fixes;
        for (const std::string& mended : mends)
            fixes.push_back(replace(value->span, mended));
        reader.report(
            Code::measure_unit, value->span,
            {reader.said(value->span), std::string(what), mends.empty() ? example : mends.front()},
            std::move(fixes));
        return std::nullopt;
    };
    switch (kind) {
        case grammar::LineKind::weight: {
            const bool mass = value->has_unit &&
                              dimension(value->quantity.unit) == Dimension::mass &&
                              number > Ratio(0);
            if (!mass && number == Ratio(0)) return report("weight", {"72 kg"});
            if (!mass) return report("weight", {bare + " kg", bare + " lb"});
            break;
        }
        case grammar::LineKind::weeks:
            if (!number.is_whole() || number == Ratio(0)) return report("number of weeks", {});
            if (value->has_unit) return report("number of weeks", {bare});
            break;
        default:
            if (number > Ratio(most_effort)) return report("effort", {});
            if (value->has_unit) return report("effort", {bare});
            break;
    }
    return Measure{*value};
}

std::optional<Measure> lower_page_count(const NodeReader& reader, NodeRange nodes,
                                        grammar::LineKind kind) {
    const auto value = read_quantity(reader, nodes.first);
    if (!value) return std::nullopt;
    const Ratio number = value->quantity.value;
    const bool one_or_two = number == Ratio(1) || number == Ratio(2);
    if (one_or_two && !value->has_unit) return Measure{*value};
    std::vector<Fix> fixes{replace(value->span, "1"), replace(value->span, "2")};
    // Only the unit is too much.
    if (one_or_two) fixes = {replace(value->span, to_decimal(number))};
    const Code code = kind == grammar::LineKind::pages ? Code::pages_count : Code::columns_count;
    reader.report(code, value->span, {reader.said(value->span)}, std::move(fixes));
    return std::nullopt;
}

std::optional<Lighter> lower_lighter(const NodeReader& reader, NodeRange nodes) {
    Lighter lighter;
    lighter.is_every = reader.at(nodes.first).kind == NodeKind::every_weeks;
    const std::uint32_t number = lighter.is_every ? nodes.first + 1 : nodes.first;
    lighter.week_span = reader.at(number).span;
    const auto week = read_whole(reader, lighter.week_span);
    if (!week) return std::nullopt;
    lighter.week = *week;
    const auto by = read_quantity(reader, reader.at(nodes.first).after);
    if (!by) return std::nullopt;
    lighter.by = *by;
    return lighter;
}

std::optional<Waves> lower_waves(const NodeReader& reader, NodeRange nodes) {
    const std::uint32_t second = reader.at(nodes.first).after;
    const auto weeks = read_whole(reader, reader.at(nodes.first).span);
    const auto steps = read_whole(reader, reader.at(second).span);
    if (!weeks || !steps) return std::nullopt;
    return Waves{*weeks, *steps, {reader.at(nodes.first).span.begin, reader.at(second).span.end}};
}

namespace {

// Sets and rounds, or a number with its unit.
std::optional<GrowthAmount> lower_growth_amount(const NodeReader& reader, std::uint32_t id) {
    const NodeKind kind = reader.at(id).kind;
    if (kind != NodeKind::sets_step && kind != NodeKind::rounds_step) {
        const auto value = read_quantity(reader, id);
        return value ? std::optional(GrowthAmount{GrowthCount::unit, *value}) : std::nullopt;
    }
    const auto number = read_whole(reader, reader.at(id + 1).span);
    if (!number) return std::nullopt;
    GrowthAmount amount;
    amount.count = kind == NodeKind::sets_step ? GrowthCount::sets : GrowthCount::rounds;
    amount.value.quantity.value = Ratio(*number);
    amount.value.has_unit = true;
    amount.value.span = reader.at(id).span;
    return amount;
}

}  // namespace

std::optional<Growth> lower_growth(const NodeReader& reader, NodeRange nodes) {
    Growth growth;
    bool is_first = true;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        if (reader.at(i).kind == NodeKind::share_of) {
            const Span span = reader.at(i + 1).span;
            growth.reference = Word{reader.slice(span), span};
            continue;
        }
        const auto amount = lower_growth_amount(reader, i);
        if (!amount) return std::nullopt;
        if (is_first) {
            growth.step = *amount;
        } else {
            growth.limit = *amount;
        }
        is_first = false;
    }
    return growth;
}

}  // namespace stave::syntax
