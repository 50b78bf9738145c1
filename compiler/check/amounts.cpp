#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compiler/check/check.hpp"
#include "compiler/check/dose_context.hpp"
#include "compiler/names/names.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::check {

namespace {

using program::AmountForm;
using program::MovementDefinition;
using syntax::Series;
using syntax::SeriesForm;

// Names whose bare number could be steps, metres or seconds as well.
bool count_is_unclear(std::string_view name) {
    const std::string_view last = name.substr(name.rfind(' ') + 1);
    constexpr std::string_view unclear[] = {
#define STAVE_UNCLEAR_COUNT(word) word,
#include "grammar/keywords.def"
    };
    return std::ranges::any_of(
        unclear, [last](std::string_view word) { return grammar::same_word(word, last); });
}

bool stays_in_place(std::string_view name) {
    const std::string_view last = name.substr(name.rfind(' ') + 1);
    constexpr std::string_view still[] = {
#define STAVE_STILL(word) word,
#include "grammar/keywords.def"
    };
    return std::ranges::any_of(
        still, [last](std::string_view word) { return grammar::same_word(word, last); });
}

const syntax::Value& first_value(const Series& series) {
    return **std::ranges::find_if(series.values, [](const auto& v) { return v.has_value(); });
}

void measure_missing(const DoseContext& context, const program::Part& part,
                     const MovementDefinition* definition, const Series& series) {
    const std::vector<Unit> units = definition != nullptr
                                        ? definition->counted_in
                                        : std::vector{Unit::steps, Unit::metre, Unit::second};
    const std::string number = to_decimal(first_value(series).quantity.value);
    std::string mends;
    std::vector<Fix> fixes;
    for (const Unit unit : units) {
        if (!mends.empty()) mends += ", ";
        mends += fmt::format("{} {}", number, plural(unit));
        const Span end{series.span.end, series.span.end};
        fixes.push_back({std::string(plural(unit)), {Edit{end, fmt::format(" {}", plural(unit))}}});
    }
    context.fail(Code::measure_missing, series.span, {number, part.name, unit_list(units), mends},
                 std::move(fixes));
}

bool is_amount(const DoseContext& context, const Series& series, Unit unit) {
    switch (dimension(unit)) {
        case Dimension::count:
        case Dimension::time:
        case Dimension::length:
        case Dimension::energy:
            return true;
        default:
            break;
    }
    const syntax::Value& value = first_value(series);
    context.fail(Code::amount_dimension, series.span,
                 {fmt::format("{} {}", to_decimal(value.quantity.value), plural(unit)),
                  std::string(dimension_name(dimension(unit)))});
    return false;
}

bool is_counted_in(const MovementDefinition& definition, Unit unit) {
    // Anything can be done for a time; the library need not say so each time.
    if (definition.from_library && dimension(unit) == Dimension::time) return true;
    return std::ranges::any_of(definition.counted_in, [unit](Unit counted) {
        if (counted == unit) return true;
        return dimension(unit) != Dimension::count && dimension(unit) == dimension(counted);
    });
}

// What the numbers of a series count: the unit that is written, else what
// the movement is counted in, else reps.
std::optional<Unit> measure(const DoseContext& context, program::Part& part,
                            const MovementDefinition* definition, const Series& series) {
    const syntax::Value& value = first_value(series);
    const bool defined = definition != nullptr && !definition->counted_in.empty();
    if (!value.has_unit) {
        const bool clear = defined && (definition->counted_in.size() == 1 ||
                                       definition->counted_in.front() == Unit::reps);
        if (clear) return definition->counted_in.front();
        if (defined || (definition == nullptr && count_is_unclear(part.name))) {
            measure_missing(context, part, definition, series);
            return std::nullopt;
        }
        part.counted_by_default = definition == nullptr;
        return Unit::reps;
    }
    const Unit unit = value.quantity.unit;
    if (!is_amount(context, series, unit)) return std::nullopt;
    if (!defined && dimension(unit) == Dimension::length && stays_in_place(part.name)) {
        const std::string number = to_decimal(value.quantity.value);
        context.fail(Code::time_dimension, value.span,
                     {fmt::format("{} {}", number, plural(unit)),
                      std::string(dimension_name(Dimension::length))},
                     {{number + " min", {Edit{value.span, number + " min"}}}});
        return std::nullopt;
    }
    if (defined && !is_counted_in(*definition, unit)) {
        context.fail(Code::measure_differs, series.span,
                     {part.name, std::string(plural(unit)), unit_list(definition->counted_in)});
        return std::nullopt;
    }
    return unit;
}

// "3/4 reps" is rather three to four than a part of one.
void fail_two_counts(const DoseContext& context, const syntax::Value& value, Unit unit) {
    const Ratio size = value.quantity.value;
    const std::string behind = value.has_unit ? fmt::format(" {}", plural(unit)) : "";
    const std::string range =
        fmt::format("{} to {}{}", size.numerator(), size.denominator(), behind);
    const std::string list = fmt::format("{}-{}{}", size.numerator(), size.denominator(), behind);
    context.fail(Code::slash_two, value.span,
                 {fmt::format("{}/{}", size.numerator(), size.denominator()), range, list},
                 {{range, {Edit{value.span, range}}}, {list, {Edit{value.span, list}}}});
}

bool check_size(const DoseContext& context, const syntax::Value& value, Unit unit) {
    const Ratio size = value.quantity.value;
    const bool is_count = dimension(unit) == Dimension::count;
    if (is_count && value.form == syntax::NumberForm::fraction && size < Ratio(1)) {
        fail_two_counts(context, value, unit);
        return false;
    }
    if (is_count && !size.is_whole()) {
        context.fail(Code::count_whole, value.span, {to_decimal(size)});
        return false;
    }
    const bool is_time = dimension(unit) == Dimension::time;
    const Ratio base = value.has_unit ? in_base_units(value.quantity) : size;
    const Ratio most = is_time ? Ratio(longest_seconds) : Ratio(largest_count);
    if (base > most) {
        const std::string limit = is_time    ? "24 h"
                                  : is_count ? fmt::format("{} {}", largest_count, plural(unit))
                                             : "100 km";
        context.fail(Code::number_too_large, value.span, {to_decimal(size), limit});
        return false;
    }
    return true;
}

// Every rung from each turning point to the next.
std::vector<std::optional<syntax::Value>> climb(const Series& series) {
    std::vector<std::optional<syntax::Value>> rungs{series.values.front()};
    for (std::size_t i = 0; i + 1 < series.values.size(); ++i) {
        const syntax::Value& from = *series.values[i];
        const syntax::Value& to = *series.values[i + 1];
        const bool up = from.quantity.value < to.quantity.value;
        const Ratio step = up ? Ratio(series.step) : Ratio(-series.step);
        syntax::Value rung = to;
        rung.quantity.value = from.quantity.value;
        // One more than fits is enough to be refused.
        while (rung.quantity.value != to.quantity.value &&
               rungs.size() <= static_cast<std::size_t>(most_sets)) {
            rung.quantity.value += step;
            rungs.emplace_back(rung);
        }
    }
    return rungs;
}

AmountForm form_of(const Series& series) {
    switch (series.extent) {
        case syntax::Extent::or_more:
            return AmountForm::at_least;
        case syntax::Extent::total:
            return AmountForm::total;
        case syntax::Extent::up_by:
            return AmountForm::open_ladder;
        case syntax::Extent::best_of:
            return AmountForm::best_of;
        case syntax::Extent::build_to:
            return AmountForm::build_to;
        case syntax::Extent::none:
        case syntax::Extent::ladder:
            break;
    }
    return series.form == SeriesForm::range ? AmountForm::range : AmountForm::exact;
}

// More reps or a wider jump than is usual is a slip more often than not.
void look_for_slips(const DoseContext& context, const Series& series, Unit unit) {
    constexpr std::int64_t many_reps = 100;
    constexpr std::int64_t wide_jump = 3;
    constexpr std::int64_t high_value = 20;
    const auto values = series.form == SeriesForm::ladder
                            ? std::vector<std::optional<syntax::Value>>{}
                            : series.values;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!values[i]) continue;
        const Ratio value = values[i]->quantity.value;
        const auto warn = [&](Code code) {
            const std::string_view said = context.text_of(series.span);
            context.sink.report({code, series.span, {std::string(said)}, {}, {}});
        };
        if (unit == Unit::reps && value > Ratio(many_reps)) return warn(Code::count_high);
        if (series.form != SeriesForm::list || i == 0 || !values[i - 1]) continue;
        const Ratio before = values[i - 1]->quantity.value;
        const bool jump = value > before * Ratio(wide_jump) || before > value * Ratio(wide_jump);
        if (jump && std::max(value, before) >= Ratio(high_value)) return warn(Code::list_jump);
    }
}

// Adds what one series says, set by set.
void fill_amounts(const DoseContext& context, program::Part& part, const Series& series,
                  Unit unit) {
    for (const auto& value : series.values) {
        if (value && !check_size(context, *value, unit)) return;
    }
    look_for_slips(context, series, unit);
    const auto quantity = [unit](const syntax::Value& value) {
        return value.has_unit ? value.quantity : Quantity{value.quantity.value, unit};
    };
    const AmountForm form = form_of(series);
    if (series.form == SeriesForm::range) {
        part.amounts.push_back({form, quantity(*series.values[0]), quantity(*series.values[1])});
        return;
    }
    for (const auto& value : spread(series)) {
        program::Amount& amount = part.amounts.emplace_back();
        if (!value) {
            amount = {AmountForm::max, {Ratio(0), unit}, {Ratio(0), unit}};
            continue;
        }
        amount = {form, quantity(*value), quantity(*value)};
        if (series.up_step) amount.high = {series.up_step->quantity.value, unit};
    }
}

// What a bare `max` is counted in.
Unit unit_of_max(const Series& series, const MovementDefinition* definition) {
    if (series.max_unit) return *series.max_unit;
    const bool defined = definition != nullptr && !definition->counted_in.empty();
    return defined ? definition->counted_in.front() : Unit::reps;
}

}  // namespace

std::vector<std::optional<syntax::Value>> spread(const Series& series) {
    return series.form == SeriesForm::ladder ? climb(series) : series.values;
}

bool add_series(const DoseContext& context, program::Part& part,
                const MovementDefinition* definition, const Series& series) {
    const bool said =
        std::ranges::any_of(series.values, [](const auto& v) { return v.has_value(); });
    if (!said) {
        const Unit unit = unit_of_max(series, definition);
        const std::size_t sets = std::max<std::size_t>(series.values.size(), 1);
        part.amounts.insert(part.amounts.end(), sets,
                            {AmountForm::max, {Ratio(0), unit}, {Ratio(0), unit}});
        return true;
    }
    // Tries, not reps.
    if (series.extent == syntax::Extent::best_of) {
        fill_amounts(context, part, series, Unit::reps);
        return !context.draft.tainted;
    }
    const auto unit = measure(context, part, definition, series);
    if (!unit) return false;
    fill_amounts(context, part, series, *unit);
    return !context.draft.tainted;
}

}  // namespace stave::check
