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

// One letter more, less or different; a hyphen for a blank is that too.
bool is_near(std::string_view left, std::string_view right) {
    if (left.size() < 4 || right.size() < 4) return false;
    if (left.size() > right.size()) std::swap(left, right);
    if (right.size() - left.size() > 1) return false;
    const auto [here, there] = std::ranges::mismatch(left, right);
    const std::string_view left_rest(here, left.end());
    const std::string_view right_rest(there, right.end());
    if (left.size() == right.size()) return left_rest.substr(1) == right_rest.substr(1);
    return left_rest == right_rest.substr(1);
}

// A defined name a slip away is worth a warning; long lists are not searched.
void look_for_near_name(const DoseContext& context, const syntax::Word& name,
                        const std::string& folded) {
    constexpr std::size_t most_searched = 500;
    if (context.definitions.movements.size() > most_searched) return;
    for (std::size_t i = 0; i < context.definitions.movements.size(); ++i) {
        if (!is_near(folded, context.definitions.folded_names[i])) continue;
        const std::string& near = context.definitions.movements[i].name;
        context.sink.report({Code::near_movement,
                             name.span,
                             {clean_text(name.text), near},
                             {{near, {Edit{name.span, near}}}},
                             {}});
        return;
    }
}

// The movement that the files define under the name; else a near one is looked
// for.
const MovementDefinition* find_definition(const DoseContext& context, const syntax::Word& name) {
    if (context.definitions.movements.empty()) return nullptr;
    const std::string folded = fold_name(name.text);
    const MovementDefinition* definition = context.definitions.find(folded);
    if (definition == nullptr) look_for_near_name(context, name, folded);
    return definition;
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
            return true;
        case Dimension::energy:
            context.fail(Code::not_read_yet, series.span, {"energy as an amount"});
            return false;
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
        if (defined && definition->counted_in.size() == 1) return definition->counted_in.front();
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

bool check_size(const DoseContext& context, const syntax::Value& value, Unit unit) {
    const Ratio size = value.quantity.value;
    const bool is_count = dimension(unit) == Dimension::count;
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
void climb(const DoseContext& context, program::Part& part, const Series& series, Unit unit) {
    const Ratio first = series.values.front()->quantity.value;
    part.amounts.push_back({AmountForm::exact, {first, unit}, {first, unit}});
    for (std::size_t i = 0; i + 1 < series.values.size(); ++i) {
        const Ratio from = series.values[i]->quantity.value;
        const Ratio to = series.values[i + 1]->quantity.value;
        const Ratio step = from < to ? Ratio(series.step) : Ratio(-series.step);
        const Ratio rungs = (to - from) / step;
        if (rungs + Ratio(static_cast<std::int64_t>(part.amounts.size())) > Ratio(most_sets)) {
            return context.fail(Code::too_many, series.span,
                                {"rungs in one ladder", std::to_string(most_sets)});
        }
        for (Ratio rung = from + step;; rung += step) {
            part.amounts.push_back({AmountForm::exact, {rung, unit}, {rung, unit}});
            if (rung == to) break;
        }
    }
}

void fill_amounts(const DoseContext& context, program::Part& part, const Series& series,
                  Unit unit) {
    for (const auto& value : series.values) {
        if (value && !check_size(context, *value, unit)) return;
    }
    const auto quantity = [unit](const syntax::Value& value) {
        return value.has_unit ? value.quantity : Quantity{value.quantity.value, unit};
    };
    switch (series.form) {
        case SeriesForm::range:
            part.amounts.push_back(
                {AmountForm::range, quantity(*series.values[0]), quantity(*series.values[1])});
            return;
        case SeriesForm::ladder:
            return climb(context, part, series, unit);
        default:
            break;
    }
    for (const auto& value : series.values) {
        if (value) {
            part.amounts.push_back({AmountForm::exact, quantity(*value), quantity(*value)});
        } else {
            part.amounts.push_back({AmountForm::max, {Ratio(0), unit}, {Ratio(0), unit}});
        }
    }
}

void add_part(const DoseContext& context, const syntax::Word& name, const Series& series) {
    program::Part& part = context.draft.item.parts.emplace_back();
    part.name = clean_text(name.text);
    if (part.name.empty()) return context.fail(Code::head_missing, name.span, {});
    const MovementDefinition* definition = find_definition(context, name);
    if (definition != nullptr) {
        part.definition =
            static_cast<std::uint32_t>(definition - context.definitions.movements.data());
    }
    if (series.form == SeriesForm::max) {
        const Unit unit = definition != nullptr && !definition->counted_in.empty()
                              ? definition->counted_in.front()
                              : Unit::reps;
        part.amounts.push_back({AmountForm::max, {Ratio(0), unit}, {Ratio(0), unit}});
        return;
    }
    const auto unit = measure(context, part, definition, series);
    if (!unit) return;
    fill_amounts(context, part, series, *unit);
}

void repeat_sets(const DoseContext& context, const syntax::Work& work) {
    if (!work.sets) return;
    const std::int64_t sets = work.sets->quantity.value.numerator();
    if (sets > most_sets) {
        return context.fail(Code::too_many, work.sets->span,
                            {"sets of one movement", std::to_string(most_sets)});
    }
    context.draft.says_sets = true;
    for (program::Part& part : context.draft.item.parts) {
        part.amounts.assign(static_cast<std::size_t>(sets), part.amounts.front());
    }
}

}  // namespace

void add_parts(const DoseContext& context) {
    const syntax::Work& work = *context.dose.work;
    if (work.parts.size() != context.line.names.size()) {
        return context.fail(
            Code::joined_count, work.span,
            {fmt::format("{} movement{}", context.line.names.size(),
                         context.line.names.size() == 1 ? "" : "s"),
             fmt::format("{} amount{}", work.parts.size(), work.parts.size() == 1 ? "" : "s")});
    }
    if (work.parts.size() > most_joined) {
        return context.fail(Code::too_many, work.span,
                            {"joined movements in one line", std::to_string(most_joined)});
    }
    for (std::size_t i = 0; i < work.parts.size(); ++i)
        add_part(context, context.line.names[i], work.parts[i]);
    if (context.draft.tainted) return;
    for (const program::Part& part : context.draft.item.parts) {
        if (part.amounts.size() != context.draft.item.set_count()) {
            return context.fail(Code::joined_lengths, work.span,
                                {context.draft.item.parts.front().name, part.name});
        }
    }
    repeat_sets(context, work);
}

}  // namespace stave::check
