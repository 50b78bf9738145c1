#include <fmt/format.h>

#include <array>
#include <utility>

#include "compiler/civil/zone.hpp"
#include "compiler/syntax/lower_parts.hpp"

namespace stave::syntax {

namespace {

using parse::NodeKind;

// The figures of "2026–12–03", whatever dashes stand between them.
std::array<int, 3> figures(std::string_view text) {
    std::array<int, 3> result{};
    std::size_t part = 0;
    bool in_number = false;
    for (const char c : text) {
        const bool digit = c >= '0' && c <= '9';
        if (digit) result[part] = result[part] * 10 + (c - '0');
        if (in_number && !digit && part < 2) ++part;
        in_number = digit;
    }
    return result;
}

bool lower_date(const NodeReader& reader, Span span, When& when) {
    const auto [year, month, day] = figures(reader.slice(span));
    when.date_span = span;
    when.date = std::chrono::year_month_day(std::chrono::year(year),
                                            std::chrono::month(static_cast<unsigned>(month)),
                                            std::chrono::day(static_cast<unsigned>(day)));
    if (year < civil::first_year || year > civil::last_year) {
        reader.report(Code::date_impossible, span,
                      {reader.said(span), fmt::format("Time zones are known from {} to {}.",
                                                      civil::first_year, civil::last_year)});
        return false;
    }
    if (when.date.ok()) return true;
    std::string reason = "A year has 12 months.";
    if (when.date.month().ok()) {
        const std::chrono::year_month_day_last end(when.date.year(),
                                                   std::chrono::month_day_last(when.date.month()));
        reason = fmt::format("That month has {} days.", static_cast<unsigned>(end.day()));
    }
    reader.report(Code::date_impossible, span, {reader.said(span), reason});
    return false;
}

bool lower_clock(const NodeReader& reader, Span span, When& when) {
    const std::string_view text = reader.slice(span);
    const bool with_minutes = text.find(':') != std::string_view::npos;
    auto [hours, minutes, unused] = figures(text.substr(0, text.find_first_of(" apAP")));
    if (!with_minutes) minutes = 0;
    const bool evening = text.find_first_of("pP") != std::string_view::npos;
    const bool half_day = evening || text.find_first_of("aA") != std::string_view::npos;
    const bool possible = minutes < 60 && (half_day ? hours >= 1 && hours <= 11 : hours < 24);
    if (!possible) {
        std::vector<Fix> fixes;
        if (half_day && hours == 12) {
            for (const std::string_view hour : {"12", "00"}) {
                const std::string mended = fmt::format("{}:{:02}", hour, minutes);
                fixes.push_back({mended, {Edit{span, mended}}});
            }
        }
        reader.report(Code::clock_impossible, span, {reader.said(span)}, std::move(fixes));
        return false;
    }
    when.clock = std::chrono::hours(hours + (evening ? 12 : 0)) + std::chrono::minutes(minutes);
    when.clock_span = span;
    return true;
}

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
                break;
            case NodeKind::kit_size: {
                const auto number = read_number(reader, i);
                if (!number || is_nothing(reader, number->value, span)) return std::nullopt;
                thing.sizes.push_back({{number->value, Unit::reps}, true, span});
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

std::optional<Format> lower_format(const NodeReader& reader, NodeRange nodes) {
    Format format;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        const parse::Node& node = reader.at(i);
        if (node.kind == NodeKind::rest) {
            auto rest = lower_rest(reader, {i + 1, node.after}, node.span);
            if (!rest) return std::nullopt;
            format.rests.push_back(*rest);
        } else if (node.kind == NodeKind::round_count) {
            if (format.rounds) {
                reader.report(Code::detail_twice, node.span, {"rounds"});
                return std::nullopt;
            }
            const auto count = read_whole(reader, reader.at(i + 1).span);
            if (!count) return std::nullopt;
            format.rounds = Value{{Ratio(*count), Unit::reps}, false, node.span};
        }
    }
    return format;
}

std::optional<When> lower_when(const NodeReader& reader, NodeRange nodes) {
    When when;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        const Span span = reader.at(i).span;
        switch (reader.at(i).kind) {
            case NodeKind::weekday: {
                const std::string_view word = reader.slice(span);
                const std::string_view trimmed = word.substr(0, word.find_first_of(" \t\xC2"));
                when.weekday = Word{
                    trimmed, {span.begin, span.begin + static_cast<std::uint32_t>(trimmed.size())}};
                break;
            }
            case NodeKind::date:
                if (!lower_date(reader, span, when)) return std::nullopt;
                break;
            case NodeKind::clock:
                if (!lower_clock(reader, span, when)) return std::nullopt;
                break;
            case NodeKind::time_limit:
                when.time_limit = lower_time(reader, i + 1);
                if (!when.time_limit) return std::nullopt;
                break;
            case NodeKind::zone_name:
                when.zone = Word{reader.slice(span), span};
                break;
            default:
                break;
        }
    }
    return when;
}

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
        speed.per = {{Ratio(1), find_unit(reader.slice(span)).value()}, true, span};
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

}  // namespace stave::syntax
