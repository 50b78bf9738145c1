#include "compiler/format/values.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace stave::format {

namespace {

using syntax::NumberForm;
using syntax::Series;
using syntax::SeriesForm;
using syntax::Value;

constexpr int places = 4;

std::string fraction(Ratio number) {
    const std::int64_t whole = floor(number);
    const Ratio rest = number - Ratio(whole);
    const std::string part = fmt::format("{}/{}", rest.numerator(), rest.denominator());
    if (rest == Ratio(0)) return std::to_string(whole);
    return whole == 0 ? part : fmt::format("{} {}", whole, part);
}

// With a point where that is all of it: thirds have no end.
std::string exact(Ratio number) {
    constexpr std::int64_t smallest = 10'000;
    return (number * Ratio(smallest)).is_whole() ? to_decimal(number, places) : fraction(number);
}

std::string clock(Ratio seconds) {
    constexpr std::int64_t minute = 60;
    const std::int64_t minutes = floor(seconds / Ratio(minute));
    const Ratio rest = seconds - Ratio(minutes * minute);
    return fmt::format("{}:{}{}", minutes, rest < Ratio(10) ? "0" : "", to_decimal(rest, places));
}

std::string_view unit_word(Unit unit, Ratio number) {
    return number <= Ratio(1) ? singular(unit) : plural(unit);
}

// "1 h 15 min": the value is in the smaller unit.
std::string compound(Quantity quantity) {
    struct Pair {
        Unit small;
        Unit large;
        std::int64_t count;
    };
    constexpr Pair pairs[] = {{Unit::minute, Unit::hour, 60},
                              {Unit::second, Unit::minute, 60},
                              {Unit::pound, Unit::stone, 14},
                              {Unit::inch, Unit::foot, 12}};
    const auto* pair = std::ranges::find(pairs, quantity.unit, &Pair::small);
    if (pair == std::end(pairs)) return exact(quantity.value);
    const std::int64_t whole = floor(quantity.value / Ratio(pair->count));
    const Ratio rest = quantity.value - Ratio(whole * pair->count);
    std::string large = fmt::format("{} {}", whole, plural(pair->large));
    // "1 h 15 min 30 s".
    if (quantity.unit == Unit::second && whole >= 60) {
        large = fmt::format("{} h {} min", whole / 60, whole % 60);
    }
    return fmt::format("{} {} {}", large, exact(rest), plural(quantity.unit));
}

// Without its unit.
std::string number(const Value& value) {
    switch (value.form) {
        case NumberForm::fraction:
            return fraction(value.quantity.value);
        case NumberForm::clock:
            return clock(in_base_units(value.quantity));
        case NumberForm::compound:
            return compound(value.quantity);
        case NumberForm::plain:
        case NumberForm::multiple:
            break;
    }
    return exact(value.quantity.value);
}

bool carries_unit(const Value& value) {
    return value.form == NumberForm::clock || value.form == NumberForm::compound;
}

std::string_view separator(SeriesForm form) {
    switch (form) {
        case SeriesForm::range:
            return " to ";
        case SeriesForm::ladder:
            return "..";
        default:
            return "-";
    }
}

// Whether one unit behind the last number serves all.
bool shares_unit(const Series& series) {
    const Value* first = nullptr;
    for (const auto& one : series.values) {
        if (!one) continue;
        if (carries_unit(*one)) return false;
        if (first == nullptr) first = &*one;
        if (one->has_unit != first->has_unit || one->quantity.unit != first->quantity.unit) {
            return false;
        }
    }
    return true;
}

std::string numbers(const Series& series) {
    const bool shared = shares_unit(series);
    std::size_t last = series.values.size();
    for (std::size_t i = 0; i < series.values.size(); ++i) {
        if (series.values[i]) last = i;
    }
    std::string text;
    for (std::size_t i = 0; i < series.values.size(); ++i) {
        if (i > 0) text += separator(series.form);
        if (!series.values[i]) {
            text += "max";
        } else {
            text += shared && i != last ? number(*series.values[i]) : value(*series.values[i]);
        }
    }
    if (series.step != 1) text += fmt::format(" by {}", series.step);
    return text;
}

std::string group(const syntax::Group& group) {
    std::string text;
    for (const syntax::GroupPart& part : group.parts) {
        if (!text.empty()) text += " + ";
        if (part.times) text += value(*part.times) + " x ";
        text += part.amount ? value(*part.amount) : "max";
    }
    if (group.rest) text += ", rest " + value(*group.rest);
    return '(' + text + ')';
}

std::string step(const syntax::WorkStep& step) {
    std::string text;
    if (step.sets) text = value(*step.sets) + " x ";
    if (step.waves) {
        const bool one = step.waves->quantity.value == Ratio(1);
        text = value(*step.waves) + (one ? " wave of " : " waves of ");
    }
    if (step.group) return text + group(*step.group);
    for (std::size_t i = 0; i < step.parts.size(); ++i)
        text += (i > 0 ? " + " : "") + series(step.parts[i]);
    return text;
}

}  // namespace

std::string squeezed(std::string_view text) {
    std::string result;
    bool blank = false;
    for (const char c : text) {
        if (c == ' ' || c == '\t') {
            blank = true;
            continue;
        }
        if (blank && !result.empty()) result += ' ';
        blank = false;
        result += c;
    }
    return result;
}

std::string value(const Value& value) {
    std::string text = number(value);
    if (!value.has_unit || carries_unit(value)) return text;
    return fmt::format("{} {}", text, unit_word(value.quantity.unit, value.quantity.value));
}

std::string series(const Series& series) {
    if (series.form == SeriesForm::max) {
        return series.max_unit ? fmt::format("max {}", plural(*series.max_unit)) : "max";
    }
    std::string text = numbers(series);
    switch (series.extent) {
        case syntax::Extent::or_more:
            return text + " or more";
        case syntax::Extent::total:
            return text + " total";
        case syntax::Extent::up_by:
            return text + " up by " + value(*series.up_step);
        case syntax::Extent::best_of:
            return "best of " + text;
        case syntax::Extent::build_to:
            return "build to " + text;
        case syntax::Extent::ladder:
            return "ladder " + text;
        case syntax::Extent::none:
            break;
    }
    return text;
}

std::string side(const syntax::Side& side) {
    constexpr std::string_view words[] = {
#define STAVE_SIDE_WORD(id, word) word,
#include "grammar/keywords.def"
    };
    switch (side.rule) {
        case syntax::SideRule::each:
            return fmt::format("each {}", words[static_cast<std::size_t>(side.word)]);
        case syntax::SideRule::alternating:
            return "alternating";
        case syntax::SideRule::there_and_back:
            return "there and back";
        case syntax::SideRule::left:
            return "left";
        case syntax::SideRule::right:
            break;
    }
    return "right";
}

std::string work(const syntax::Work& work) {
    std::string text = step(work.first);
    for (const syntax::WorkStep& next : work.next)
        text += " then " + step(next);
    if (work.within) text += " in " + value(*work.within);
    if (work.side) text += ' ' + side(*work.side);
    return text;
}

std::string day(const syntax::Day& day) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.date.year()),
                       static_cast<unsigned>(day.date.month()),
                       static_cast<unsigned>(day.date.day()));
}

std::string per(const Value& value) {
    const bool one = value.form == NumberForm::plain && value.quantity.value == Ratio(1);
    if (one && value.has_unit) return fmt::format("per {}", singular(value.quantity.unit));
    return "per " + format::value(value);
}

}  // namespace stave::format
