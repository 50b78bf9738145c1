#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compiler/check/check.hpp"
#include "compiler/check/dose_context.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using syntax::LoadKind;
using syntax::Series;
using syntax::SeriesForm;

constexpr std::size_t most_loads = 100;

// The values of a list or a ladder; one for everything else.
std::size_t value_count(const Series& series) {
    const bool several = series.form == SeriesForm::list || series.form == SeriesForm::ladder;
    return several ? spread(series).size() : 1;
}

bool is_liftable(const DoseContext& context, const syntax::Value& weight) {
    constexpr std::int64_t heaviest_kg = 2000;
    if (dimension(weight.quantity.unit) != Dimension::mass ||
        in_base_units(weight.quantity) <= Ratio(heaviest_kg)) {
        return true;
    }
    context.fail(
        Code::number_too_large, weight.span,
        {fmt::format("{} {}", to_decimal(weight.quantity.value), plural(weight.quantity.unit)),
         fmt::format("{} kg", heaviest_kg)});
    return false;
}

// "60" without kg, lb or %; for a distance it may be the seconds to do it in.
void report_bare(const DoseContext& context, const syntax::Value& value) {
    const std::string number = to_decimal(value.quantity.value);
    const Span end{value.span.end, value.span.end};
    std::vector<Fix> fixes{{number + " kg", {Edit{end, " kg"}}},
                           {number + " lb", {Edit{end, " lb"}}}};
    const auto& work = context.dose.work;
    const bool distance =
        work && !work->within && !work->side && context.dose.load.size() == 1 &&
        !work->first.parts.empty() && !work->first.parts[0].values.empty() &&
        work->first.parts[0].values[0] &&
        dimension(work->first.parts[0].values[0]->quantity.unit) == Dimension::length;
    if (distance) {
        const std::string time = fmt::format("in {} s", number);
        fixes.push_back({time, {Edit{{work->span.end, value.span.end}, " " + time}}});
    }
    context.fail(Code::load_unit, value.span, {number}, std::move(fixes));
}

// "400 m @ 88 s": a pace without its distance, or the time to do it in.
void report_time(const DoseContext& context, Span time) {
    const std::string said(context.text_of(time));
    const auto& work = context.dose.work;
    std::vector<Fix> fixes;
    if (work && !work->within && !work->side && context.dose.load.size() == 1) {
        fixes = {{said + " per 500 m", {Edit{{time.end, time.end}, " per 500 m"}}},
                 {"in " + said, {Edit{{work->span.end, time.end}, " in " + said}}}};
    }
    context.fail(Code::pace_per, time, {said}, std::move(fixes));
}

// A weight, a power or a share: what a number with a unit may be behind the @.
bool check_measured(const DoseContext& context, const syntax::LoadTerm& term) {
    const syntax::Value& value = **term.weight.values.rbegin();
    if (!value.has_unit) {
        report_bare(context, value);
        return false;
    }
    const Unit unit = value.quantity.unit;
    switch (dimension(unit)) {
        case Dimension::mass:
        case Dimension::power:
        case Dimension::share:
            break;
        case Dimension::time: {
            report_time(context, term.weight.span);
            return false;
        }
        default:
            context.fail(Code::load_dimension, term.weight.span,
                         {fmt::format("{} {}", to_decimal(value.quantity.value), plural(unit)),
                          std::string(dimension_name(dimension(unit)))});
            return false;
    }
    if (term.implements && term.implements->quantity.value == Ratio(0)) {
        context.fail(Code::implements, term.implements->span, {"0"});
        return false;
    }
    return std::ranges::all_of(term.weight.values,
                               [&](const auto& weight) { return is_liftable(context, *weight); });
}

// Whether one metre or one of a count takes some time, and at most a day: sums of
// such times stay inside their bounds.
bool is_possible_rate(const Quantity& time, const Quantity& work) {
    const bool length = dimension(work.unit) == Dimension::length;
    const Ratio amount = length ? in_base_units(work) : work.value;
    const Ratio seconds = in_base_units(time);
    const bool possible = seconds <= Ratio(longest_seconds) && amount <= Ratio(largest_count);
    if (!possible || amount == Ratio(0)) return false;
    const Ratio each = rounded(seconds / amount, 1'000'000);
    return each > Ratio(0) && each <= Ratio(longest_seconds);
}

// A time per distance, or a distance, a count or an energy per time.
bool check_rate(const DoseContext& context, const syntax::LoadTerm& term) {
    const syntax::Value& value = **term.weight.values.rbegin();
    const Dimension per = dimension(term.per->quantity.unit);
    const Dimension what = dimension(value.quantity.unit);
    const bool pace = value.has_unit && what == Dimension::time && per == Dimension::length;
    const bool rate =
        value.has_unit && per == Dimension::time &&
        (what == Dimension::length || what == Dimension::count || what == Dimension::energy);
    const Span whole = cover(term.weight.span, term.per->span);
    if ((pace || rate) && term.per->quantity.value > Ratio(0)) {
        const Quantity& per_one = term.per->quantity;
        const bool possible = std::ranges::all_of(term.weight.values, [&](const auto& one) {
            return pace ? is_possible_rate(one->quantity, per_one)
                        : is_possible_rate(per_one, one->quantity);
        });
        if (possible) return true;
        context.fail(Code::number_too_large, whole,
                     {std::string(context.text_of(whole)), "24 h for each"});
        return false;
    }
    context.fail(Code::per_load, whole,
                 {std::string(context.text_of(term.weight.span)),
                  std::string(context.text_of(term.per->span))});
    return false;
}

// What may be added to or taken off a load of the kind; empty: nothing.
std::vector<Dimension> shift_dimensions(LoadKind kind) {
    switch (kind) {
        case LoadKind::bodyweight:
        case LoadKind::share:
        case LoadKind::rep_max:
            return {Dimension::mass, Dimension::share};
        case LoadKind::last_time:
            return {Dimension::mass, Dimension::share, Dimension::time, Dimension::count};
        case LoadKind::test_pace:
            return {Dimension::time};
        default:
            return {};
    }
}

bool check_shift_value(const DoseContext& context, const syntax::LoadTerm& term,
                       const std::optional<syntax::Value>& value) {
    if (!value) {
        context.fail(Code::number_expected, term.shift->amount.span, {});
        return false;
    }
    if (!value->has_unit && term.kind != LoadKind::last_time) {
        report_bare(context, *value);
        return false;
    }
    const auto allowed = shift_dimensions(term.kind);
    if (std::ranges::find(allowed, dimension(value->quantity.unit)) == allowed.end()) {
        context.fail(
            Code::shift_unit, value->span,
            {std::string(context.text_of(value->span)),
             term.kind == LoadKind::test_pace ? "A pace is slower or faster by a time."
                                              : "It is more or less by a weight or a share."});
        return false;
    }
    return is_liftable(context, *value);
}

bool check_shift(const DoseContext& context, const syntax::LoadTerm& term) {
    if (!term.shift) return true;
    if (shift_dimensions(term.kind).empty()) {
        context.fail(Code::shift_what, term.span, {std::string(context.text_of(term.span))});
        return false;
    }
    return std::ranges::all_of(term.shift->amount.values, [&](const auto& value) {
        return check_shift_value(context, term, value);
    });
}

program::LoadKind kind_of(const syntax::LoadTerm& term) {
    using program::LoadKind;
    switch (term.kind) {
        case syntax::LoadKind::measured:
            switch (dimension(term.weight.values.back()->quantity.unit)) {
                case Dimension::power:
                    return LoadKind::power;
                case Dimension::share:
                    return LoadKind::share_of_max;
                default:
                    return LoadKind::mass;
            }
        case syntax::LoadKind::band:
            return LoadKind::band;
        case syntax::LoadKind::bodyweight:
            return LoadKind::bodyweight;
        case syntax::LoadKind::empty_bar:
            return LoadKind::empty_bar;
        case syntax::LoadKind::last_time:
            return LoadKind::last_time;
        case syntax::LoadKind::share:
            return LoadKind::share_of;
        case syntax::LoadKind::rep_max:
            return LoadKind::rep_max;
        case syntax::LoadKind::rate:
            return LoadKind::rate;
        case syntax::LoadKind::test_pace:
            return LoadKind::test_pace;
        case syntax::LoadKind::effort_share:
            return LoadKind::effort_share;
        case syntax::LoadKind::rpe:
            return LoadKind::rpe;
        case syntax::LoadKind::reserve:
            return LoadKind::reserve;
        case syntax::LoadKind::zone:
            return LoadKind::zone;
        case syntax::LoadKind::heart_rate:
            break;
    }
    return LoadKind::heart_rate;
}

}  // namespace

std::size_t value_count(const syntax::LoadTerm& term) {
    const std::size_t shifts = term.shift ? value_count(term.shift->amount) : 1;
    return std::max(value_count(term.weight), shifts);
}

bool check_term(const DoseContext& context, const syntax::LoadTerm& term) {
    const bool has_gap = std::ranges::any_of(term.weight.values, [](const auto& v) { return !v; });
    if (has_gap) {
        context.fail(Code::load_max, term.weight.span, {});
        return false;
    }
    if (value_count(term) > most_loads) {
        context.fail(Code::too_many, term.span,
                     {"loads of one movement", std::to_string(most_loads)});
        return false;
    }
    if (term.kind == LoadKind::measured && !check_measured(context, term)) return false;
    if (term.kind == LoadKind::rate && !check_rate(context, term)) return false;
    return check_shift(context, term);
}

program::LoadTerm to_term(const syntax::LoadTerm& term, std::size_t set) {
    program::LoadTerm result;
    result.kind = kind_of(term);
    result.place = clean_text(term.label);
    result.helps = term.helps;
    if (term.implements) result.implements = term.implements->quantity.value.numerator();
    if (term.reference) result.of = clean_text(term.reference->text);
    if (term.per) result.per = term.per->quantity;
    const auto values = spread(term.weight);
    if (!values.empty()) {
        const bool by_set = value_count(term.weight) > 1;
        result.low = values[by_set ? set : 0]->quantity;
        result.high = by_set ? result.low : values.back()->quantity;
    }
    if (term.shift) {
        const auto shifts = spread(term.shift->amount);
        const std::size_t at = shifts.size() > 1 ? set : 0;
        result.shift.push_back({term.shift->minus, shifts[at]->quantity});
    }
    return result;
}

std::optional<program::LoadTerm> to_effort(const DoseContext& context,
                                           const syntax::LoadTerm& term) {
    if (!check_term(context, term)) return std::nullopt;
    if (value_count(term) > 1) {
        context.fail(Code::effort_list, term.span, {std::string(context.text_of(term.span))});
        return std::nullopt;
    }
    return to_term(term, 0);
}

}  // namespace stave::check
