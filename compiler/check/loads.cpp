#include <fmt/format.h>

#include <algorithm>

#include "compiler/check/dose_context.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using syntax::Series;
using syntax::SeriesForm;

std::size_t value_count(const Series& series) {
    return series.form == SeriesForm::list ? series.values.size() : 1;
}

bool is_liftable(const DoseContext& context, const syntax::Value& weight) {
    constexpr std::int64_t heaviest_kg = 2000;
    if (in_base_units(weight.quantity) <= Ratio(heaviest_kg)) return true;
    context.fail(
        Code::number_too_large, weight.span,
        {fmt::format("{} {}", to_decimal(weight.quantity.value), plural(weight.quantity.unit)),
         fmt::format("{} kg", heaviest_kg)});
    return false;
}

bool check_term(const DoseContext& context, const syntax::LoadTerm& term) {
    if (term.kind != syntax::LoadKind::mass) return true;
    if (term.weight.form == SeriesForm::ladder) {
        context.fail(Code::not_read_yet, term.weight.span, {"a ladder of loads"});
        return false;
    }
    const auto missing =
        std::ranges::find_if(term.weight.values, [](const auto& value) { return !value; });
    if (missing != term.weight.values.end()) {
        context.fail(Code::load_expected, term.weight.span, {});
        return false;
    }
    const syntax::Value& value = **term.weight.values.rbegin();
    const std::string number = to_decimal(value.quantity.value);
    if (!value.has_unit) {
        const Span end{value.span.end, value.span.end};
        context.fail(Code::load_unit, value.span, {number},
                     {{number + " kg", {Edit{end, " kg"}}}, {number + " lb", {Edit{end, " lb"}}}});
        return false;
    }
    const Dimension what = dimension(value.quantity.unit);
    if (what == Dimension::share) {
        context.fail(Code::not_read_yet, term.weight.span, {"a share of a tested max"});
        return false;
    }
    if (what != Dimension::mass) {
        context.fail(Code::load_dimension, term.weight.span,
                     {fmt::format("{} {}", number, plural(value.quantity.unit)),
                      std::string(dimension_name(what))});
        return false;
    }
    if (term.implements && term.implements->quantity.value == Ratio(0)) {
        context.fail(Code::implements, term.implements->span, {"0"});
        return false;
    }
    return std::ranges::all_of(term.weight.values,
                               [&](const auto& weight) { return is_liftable(context, *weight); });
}

program::LoadTerm to_term(const syntax::LoadTerm& term, std::size_t set) {
    program::LoadTerm result;
    result.place = clean_text(term.label);
    switch (term.kind) {
        case syntax::LoadKind::band:
            result.kind = program::LoadKind::band;
            return result;
        case syntax::LoadKind::bodyweight:
            result.kind = program::LoadKind::bodyweight;
            return result;
        case syntax::LoadKind::mass:
            break;
    }
    if (term.implements) result.implements = term.implements->quantity.value.numerator();
    const auto& values = term.weight.values;
    const bool is_list = term.weight.form == SeriesForm::list;
    result.low = values[is_list ? set : 0]->quantity;
    result.high = is_list ? result.low : values.back()->quantity;
    return result;
}

}  // namespace

void add_loads(const DoseContext& context) {
    if (context.dose.load.empty()) return;
    std::size_t count = 1;
    for (const syntax::LoadTerm& term : context.dose.load) {
        if (!check_term(context, term)) return;
        count = std::max(count, value_count(term.weight));
    }
    const std::size_t sets = context.draft.item.set_count();
    // A list of loads may also say how many rounds a single amount is done.
    if (count > 1 && sets > 1 && count != sets) {
        return context.fail(
            Code::list_length, context.dose.load_span,
            {"The load", std::to_string(count), "the amount", std::to_string(sets)});
    }
    for (std::size_t i = 0; i < count; ++i) {
        program::Load& load = context.draft.item.loads.emplace_back();
        for (const syntax::LoadTerm& term : context.dose.load)
            load.terms.push_back(to_term(term, i));
    }
}

}  // namespace stave::check
