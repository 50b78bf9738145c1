#include "compiler/syntax/numbers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <numeric>
#include <utility>

namespace stave::syntax {

namespace {

using parse::NodeKind;

std::optional<std::int64_t> to_whole(std::string_view digits) {
    std::int64_t value = 0;
    const auto [end, problem] =
        std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (problem != std::errc() || end != digits.data() + digits.size()) return std::nullopt;
    return value > largest_number ? std::nullopt : std::optional(value);
}

std::optional<std::int64_t> whole_part(const NodeReader& reader, std::string_view digits,
                                       Span span) {
    const auto value = to_whole(digits);
    if (!value) {
        reader.report(
            Code::number_too_large, span,
            {std::string(reader.slice(span).substr(0, 40)), std::to_string(largest_number)});
    }
    return value;
}

// "0125" may be 0.125 or 125.
bool has_leading_zero(const NodeReader& reader, std::string_view digits, Span span) {
    if (digits.size() < 2 || digits.front() != '0') return false;
    const std::string decimal = fmt::format("0.{}", digits.substr(1));
    const std::string whole(
        digits.substr(std::min(digits.find_first_not_of('0'), digits.size() - 1)));
    reader.report(Code::leading_zero, span, {std::string(digits), decimal, whole},
                  {replace(span, decimal), replace(span, whole)});
    return true;
}

std::optional<Number> read_clock(const NodeReader& reader, Span span) {
    const std::string_view said = reader.slice(span);
    const std::size_t colon = said.find(':');
    const std::size_t point = said.find('.');
    const std::string_view seconds = said.substr(
        colon + 1, point == std::string_view::npos ? std::string_view::npos : point - colon - 1);
    const auto minutes = whole_part(reader, said.substr(0, colon), span);
    if (!minutes) return std::nullopt;
    const auto whole_seconds = to_whole(seconds);
    if (seconds.size() != 2 || !whole_seconds || *whole_seconds > 59) {
        std::vector<Fix> fixes;
        if (seconds.size() == 1) {
            fixes.push_back(replace(span, fmt::format("{}:0{}", *minutes, seconds)));
        }
        reader.report(Code::clock_digits, span, {std::string(said)}, std::move(fixes));
        return std::nullopt;
    }
    Ratio value(*minutes * 60 + *whole_seconds);
    if (point != std::string_view::npos) {
        const std::string_view tenths = said.substr(point + 1, most_decimals);
        std::int64_t scale = 1;
        for (std::size_t i = 0; i < tenths.size(); ++i)
            scale *= 10;
        value += Ratio(to_whole(tenths).value_or(0), scale);
    }
    return Number{value, true, span};
}

std::optional<Number> read_decimal(const NodeReader& reader, Span span) {
    const std::string_view said = reader.slice(span);
    const std::size_t point = said.find('.');
    const std::string_view whole_digits = said.substr(0, point);
    const std::string_view decimals = said.substr(point + 1);
    if (whole_digits.size() > 1 && has_leading_zero(reader, whole_digits, span))
        return std::nullopt;
    if (decimals.size() == 3 && decimals.ends_with('0') && whole_digits != "0") {
        std::string_view trimmed = decimals;
        while (trimmed.ends_with('0') && trimmed.size() > 1)
            trimmed.remove_suffix(1);
        const std::string thousand = fmt::format("{}{}", whole_digits, decimals);
        const std::string decimal = fmt::format("{}.{}", whole_digits, trimmed);
        reader.report(Code::thousands, span, {std::string(said), thousand, decimal},
                      {replace(span, thousand), replace(span, decimal)});
        return std::nullopt;
    }
    if (decimals.size() > most_decimals) {
        reader.report(Code::number_too_large, span,
                      {std::string(said.substr(0, 40)),
                       fmt::format("{} digits behind the point", most_decimals)});
        return std::nullopt;
    }
    const auto whole = whole_part(reader, whole_digits, span);
    if (!whole) return std::nullopt;
    std::int64_t scale = 1;
    for (std::size_t i = 0; i < decimals.size(); ++i)
        scale *= 10;
    return Number{Ratio(*whole) + Ratio(to_whole(decimals).value_or(0), scale), false, span};
}

// The fractions that people write of measures: "3/4 mile". Any other, as 60/70 or 8/10, is
// rather two values.
bool is_usual_fraction(std::int64_t top, std::int64_t bottom) {
    constexpr std::array<std::int64_t, 5> usual_bottoms{2, 3, 4, 8, 16};
    return std::gcd(top, bottom) == 1 &&
           std::ranges::find(usual_bottoms, bottom) != usual_bottoms.end();
}

void report_two_values(const NodeReader& reader, Span span, std::int64_t first,
                       std::int64_t second) {
    const std::string range = fmt::format("{} to {}", first, second);
    const std::string list = fmt::format("{}-{}", first, second);
    reader.report(Code::slash_two, span, {std::string(reader.slice(span)), range, list},
                  {replace(span, range), replace(span, list)});
}

// "1/2", "1 1/4": the top must be below the bottom, so that 8/8 stays refused.
std::optional<Number> read_fraction(const NodeReader& reader, Span span) {
    const std::string_view said = reader.slice(span);
    const std::size_t slash = said.find('/');
    const std::size_t top_begin = said.find_last_not_of("0123456789", slash - 1);
    const bool mixed = top_begin != std::string_view::npos;
    const std::string_view top_digits =
        said.substr(mixed ? top_begin + 1 : 0, slash - (mixed ? top_begin + 1 : 0));
    const auto top = to_whole(top_digits);
    const auto bottom = to_whole(said.substr(slash + 1));
    if (!top || !bottom || *top == 0 || *top >= *bottom) {
        std::vector<Fix> fixes;
        if (!mixed && top && bottom && *top == *bottom) {
            fixes.push_back(replace(span, fmt::format("{} each side", *top)));
        }
        reader.report(Code::slash, span, {std::string(said)}, std::move(fixes));
        return std::nullopt;
    }
    if (!is_usual_fraction(*top, *bottom)) {
        report_two_values(reader, span, *top, *bottom);
        return std::nullopt;
    }
    Ratio value(*top, *bottom);
    if (mixed) {
        const std::string_view whole_digits = said.substr(0, said.find_first_not_of("0123456789"));
        const auto whole = whole_part(reader, whole_digits, span);
        if (!whole) return std::nullopt;
        value += Ratio(*whole);
    }
    return Number{value, false, span};
}

std::optional<Number> read_vulgar(const NodeReader& reader, Span span) {
    struct Sign {
        std::string_view text;
        Ratio value;
    };
    const std::array signs{
        Sign{"¼", Ratio(1, 4)}, Sign{"½", Ratio(1, 2)}, Sign{"¾", Ratio(3, 4)},
        Sign{"⅓", Ratio(1, 3)}, Sign{"⅔", Ratio(2, 3)}, Sign{"⅛", Ratio(1, 8)},
        Sign{"⅜", Ratio(3, 8)}, Sign{"⅝", Ratio(5, 8)}, Sign{"⅞", Ratio(7, 8)},
    };
    const std::string_view said = reader.slice(span);
    for (const Sign& sign : signs) {
        if (!said.ends_with(sign.text)) continue;
        const std::string_view digits = said.substr(0, said.size() - sign.text.size());
        if (digits.empty()) return Number{sign.value, false, span};
        const auto whole = whole_part(reader, digits, span);
        if (!whole) return std::nullopt;
        return Number{Ratio(*whole) + sign.value, false, span};
    }
    return std::nullopt;
}

NumberForm form_of(NodeKind number) {
    switch (number) {
        case NodeKind::clock_number:
            return NumberForm::clock;
        case NodeKind::fraction_number:
        case NodeKind::mixed_number:
        case NodeKind::vulgar_number:
            return NumberForm::fraction;
        default:
            return NumberForm::plain;
    }
}

// Whether `smaller` may follow `larger` in one amount.
bool continues(Unit larger, Unit smaller) {
    return (larger == Unit::hour && smaller == Unit::minute) ||
           (larger == Unit::minute && smaller == Unit::second) ||
           (larger == Unit::stone && smaller == Unit::pound) ||
           (larger == Unit::foot && smaller == Unit::inch);
}

// "1 h 75 min", "400 min 68 s": the smaller part is a whole of the larger one.
bool overflows(const NodeReader& reader, const Value& larger, const Number& number, Span unit_span,
               Unit unit) {
    const Quantity one{Ratio(1), larger.quantity.unit};
    const Ratio whole = convert(one, unit).value;
    if (number.value < whole) return false;
    const Ratio carried(floor(number.value / whole));
    const std::string mended = fmt::format(
        "{} {} {} {}", to_decimal(larger.quantity.value + carried), plural(larger.quantity.unit),
        to_decimal(number.value - carried * whole), plural(unit));
    const Span part = cover(number.span, unit_span);
    reader.report(Code::compound_large, part,
                  {reader.said(part), std::string(singular(larger.quantity.unit)), mended},
                  {replace(cover(larger.span, part), mended)});
    return true;
}

// Adds the smaller parts of "1 h 15 min" to the value, in the smallest unit.
bool add_compound(const NodeReader& reader, std::uint32_t first, std::uint32_t end, Value& value) {
    std::optional<Number> number;
    for (std::uint32_t child = first; child < end; child = reader.at(child).after) {
        const parse::Node& node = reader.at(child);
        if (node.kind != NodeKind::unit) {
            number = read_number(reader, child);
            if (!number) return false;
            if (number->clock) {
                reader.report(Code::clock_unit, number->span,
                              {reader.said(number->span), "1 h 30 min"});
                return false;
            }
            continue;
        }
        const Unit unit = find_unit(reader.slice(node.span)).value();
        const bool whole = value.quantity.value.is_whole();
        if (!number || !whole || !continues(value.quantity.unit, unit)) {
            reader.report(
                Code::compound_unit, node.span,
                {std::string(singular(value.quantity.unit)), std::string(reader.slice(node.span))});
            return false;
        }
        if (overflows(reader, value, *number, node.span, unit)) return false;
        value.form = NumberForm::compound;
        value.quantity = convert(value.quantity, unit);
        value.quantity.value += number->value;
        value.span.end = node.span.end;
        if (value.quantity.value > Ratio(largest_number)) {
            reader.report(Code::number_too_large, value.span,
                          {reader.said(value.span), std::to_string(largest_number)});
            return false;
        }
    }
    return true;
}

// "1:30 h" are hours and minutes, "1:30 min" needs no unit.
void report_clock_unit(const NodeReader& reader, const Number& number, Span unit) {
    const Span said = cover(number.span, unit);
    std::string mended = reader.said(number.span);
    if (find_unit(reader.slice(unit)) == Unit::hour) {
        constexpr std::int64_t seconds_per_minute = 60;
        const std::int64_t value = number.value.numerator() / number.value.denominator();
        mended = fmt::format("{} h {} min", value / seconds_per_minute, value % seconds_per_minute);
    }
    reader.report(Code::clock_unit, said, {reader.said(said), mended}, {replace(said, mended)});
}

}  // namespace

void NodeReader::report(Code code, Span span, std::vector<std::string> arguments,
                        std::vector<Fix> fixes) const {
    sink.report({code, span, std::move(arguments), std::move(fixes), {}});
}

Fix replace(Span span, const std::string& text) {
    return {text, {Edit{span, text}}};
}

std::optional<std::uint32_t> NodeReader::child(std::uint32_t node, NodeKind kind) const {
    for (std::uint32_t i = node + 1; i < at(node).after; i = at(i).after) {
        if (at(i).kind == kind) return i;
    }
    return std::nullopt;
}

std::optional<std::int64_t> read_whole(const NodeReader& reader, Span span) {
    const std::string_view said = reader.slice(span);
    const std::string_view digits = said.substr(0, said.find_first_not_of("0123456789"));
    if (has_leading_zero(reader, digits, span)) return std::nullopt;
    return whole_part(reader, digits, span);
}

std::optional<Number> read_number(const NodeReader& reader, std::uint32_t node) {
    const Span span = reader.at(node).span;
    switch (reader.at(node).kind) {
        case NodeKind::clock_number:
            return read_clock(reader, span);
        case NodeKind::decimal_number:
        case NodeKind::kit_size:
            if (reader.slice(span).find('.') != std::string_view::npos) {
                return read_decimal(reader, span);
            }
            break;
        case NodeKind::mixed_number:
        case NodeKind::fraction_number:
            return read_fraction(reader, span);
        case NodeKind::vulgar_number:
            return read_vulgar(reader, span);
        default:
            break;
    }
    const auto whole = read_whole(reader, span);
    if (!whole) return std::nullopt;
    return Number{Ratio(*whole), false, span};
}

std::optional<Value> read_quantity(const NodeReader& reader, std::uint32_t node) {
    const std::uint32_t number_node = node + 1;
    const auto number = read_number(reader, number_node);
    if (!number) return std::nullopt;
    Value value{
        {number->value, Unit::reps}, false, form_of(reader.at(number_node).kind), number->span};
    const std::uint32_t unit_node = reader.at(number_node).after;
    const bool has_unit = unit_node < reader.at(node).after;
    if (number->clock) {
        value.quantity.unit = Unit::second;
        value.has_unit = true;
        if (has_unit) {
            const Span unit_span = reader.at(unit_node).span;
            report_clock_unit(reader, *number, unit_span);
            return std::nullopt;
        }
        return value;
    }
    if (!has_unit) return value;
    value.has_unit = true;
    value.quantity.unit = find_unit(reader.slice(reader.at(unit_node).span)).value();
    value.span.end = reader.at(unit_node).span.end;
    if (!add_compound(reader, reader.at(unit_node).after, reader.at(node).after, value)) {
        return std::nullopt;
    }
    return value;
}

}  // namespace stave::syntax
