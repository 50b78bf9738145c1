#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compiler/check/check.hpp"
#include "compiler/check/lines.hpp"
#include "compiler/check/names.hpp"

namespace stave::check {

namespace {

using program::Amount;
using program::AmountForm;
using program::MovementDefinition;
using syntax::Series;
using syntax::SeriesForm;

// Names whose bare number could be steps, metres or seconds as well.
bool count_is_unclear(std::string_view folded_name) {
    const std::string_view last = folded_name.substr(folded_name.rfind(' ') + 1);
    constexpr std::string_view unclear[] = {
#define STAVE_UNCLEAR_COUNT(word) word,
#include "grammar/keywords.def"
    };
    return std::ranges::find(unclear, last) != std::end(unclear);
}

class DoseChecker {
public:
    DoseChecker(const syntax::Line& line, const syntax::Dose& dose, const Definitions& definitions,
                DiagnosticSink& sink, DraftItem& draft)
        : line_(line), dose_(dose), definitions_(definitions), sink_(sink), draft_(draft) {}

    void run() {
        draft_.item.span = line_.span;
        if (!dose_.work) {
            return fail(Code::amount_missing, line_.head, {clean_text(line_.title.text)});
        }
        draft_.amount_span = dose_.work->span;
        add_parts();
        if (draft_.tainted) return;
        check_sides();
        add_loads();
        add_details();
    }

private:
    void fail(Code code, Span span, std::vector<std::string> arguments,
              std::vector<Fix> fixes = {}) {
        draft_.tainted = true;
        sink_.report({code, span, std::move(arguments), std::move(fixes), {}});
    }

    // Amounts of each joined movement, all with as many sets.
    void add_parts() {
        const syntax::Work& work = *dose_.work;
        if (work.parts.size() != line_.names.size()) {
            return fail(
                Code::joined_count, work.span,
                {fmt::format("{} movement{}", line_.names.size(),
                             line_.names.size() == 1 ? "" : "s"),
                 fmt::format("{} amount{}", work.parts.size(), work.parts.size() == 1 ? "" : "s")});
        }
        for (std::size_t i = 0; i < work.parts.size(); ++i)
            add_part(line_.names[i], work.parts[i]);
        if (draft_.tainted) return;
        for (const program::Part& part : draft_.item.parts) {
            if (part.amounts.size() != draft_.item.set_count()) {
                return fail(Code::joined_lengths, work.span,
                            {draft_.item.parts.front().name, part.name});
            }
        }
        repeat_sets(work);
    }

    void repeat_sets(const syntax::Work& work) {
        draft_.is_list = draft_.item.set_count() > 1;
        if (!work.sets) return;
        const std::int64_t sets = work.sets->quantity.value.numerator();
        if (sets > most_sets) {
            return fail(Code::too_many, work.sets->span,
                        {fmt::format("{} sets", sets), std::to_string(most_sets)});
        }
        draft_.says_sets = true;
        for (program::Part& part : draft_.item.parts) {
            part.amounts.assign(static_cast<std::size_t>(sets), part.amounts.front());
        }
    }

    void add_part(const syntax::Word& name, const Series& series) {
        program::Part& part = draft_.item.parts.emplace_back();
        part.name = clean_text(name.text);
        const MovementDefinition* definition = definitions_.find(name.text);
        if (definition != nullptr) {
            part.definition =
                static_cast<std::uint32_t>(definition - definitions_.movements.data());
        } else {
            look_for_near_name(name);
        }
        if (series.form == SeriesForm::max) {
            const Unit unit = definition != nullptr && !definition->counted_in.empty()
                                  ? definition->counted_in.front()
                                  : Unit::reps;
            part.amounts.push_back({AmountForm::max, {Ratio(0), unit}, {Ratio(0), unit}});
            return;
        }
        const auto unit = measure(part, definition, series);
        if (!unit) return;
        fill_amounts(part, series, *unit);
    }

    // A defined name a slip away is worth a warning; long lists are not searched.
    void look_for_near_name(const syntax::Word& name) {
        constexpr std::size_t most_searched = 500;
        if (definitions_.movements.size() > most_searched) return;
        const std::string folded = fold_name(name.text);
        for (const MovementDefinition& candidate : definitions_.movements) {
            if (!is_near(folded, fold_name(candidate.name))) continue;
            sink_.report({Code::near_movement,
                          name.span,
                          {clean_text(name.text), candidate.name},
                          {{candidate.name, {Edit{name.span, candidate.name}}}},
                          {}});
            return;
        }
    }

    // One letter more, less or different, or a hyphen for a blank; a plural s is
    // a name of its own to no coach either.
    static bool is_near(std::string_view left, std::string_view right) {
        if (left.size() < 4 || right.size() < 4) return false;
        if (left.size() > right.size()) std::swap(left, right);
        if (right.size() - left.size() > 1) return false;
        const auto [here, there] = std::ranges::mismatch(left, right);
        const std::string_view left_rest(here, left.end());
        const std::string_view right_rest(there, right.end());
        if (left.size() == right.size()) return left_rest.substr(1) == right_rest.substr(1);
        return left_rest == right_rest.substr(1);
    }

    // What the numbers of a series count: the unit that is written, else what
    // the movement is counted in, else reps.
    [[nodiscard]] std::optional<Unit> measure(program::Part& part,
                                              const MovementDefinition* definition,
                                              const Series& series) {
        const syntax::Value& value = first_value(series);
        const bool defined = definition != nullptr && !definition->counted_in.empty();
        if (!value.has_unit) {
            if (defined && definition->counted_in.size() == 1)
                return definition->counted_in.front();
            if (defined || (definition == nullptr && count_is_unclear(fold_name(part.name)))) {
                measure_missing(part, definition, series);
                return std::nullopt;
            }
            part.counted_by_default = definition == nullptr;
            return Unit::reps;
        }
        const Unit unit = value.quantity.unit;
        if (!is_amount(series, unit)) return std::nullopt;
        if (defined && !is_counted_in(*definition, unit)) {
            fail(Code::measure_differs, series.span,
                 {part.name, std::string(plural(unit)), unit_list(definition->counted_in)});
            return std::nullopt;
        }
        return unit;
    }

    static const syntax::Value& first_value(const Series& series) {
        return **std::ranges::find_if(series.values, [](const auto& v) { return v.has_value(); });
    }

    void measure_missing(const program::Part& part, const MovementDefinition* definition,
                         const Series& series) {
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
            fixes.push_back(
                {std::string(plural(unit)), {Edit{end, fmt::format(" {}", plural(unit))}}});
        }
        fail(Code::measure_missing, series.span, {number, part.name, unit_list(units), mends},
             std::move(fixes));
    }

    bool is_amount(const Series& series, Unit unit) {
        switch (dimension(unit)) {
            case Dimension::count:
            case Dimension::time:
            case Dimension::length:
                return true;
            case Dimension::energy:
                fail(Code::not_read_yet, series.span, {"energy as an amount"});
                return false;
            default:
                break;
        }
        const syntax::Value& value = first_value(series);
        fail(Code::amount_dimension, series.span,
             {fmt::format("{} {}", to_decimal(value.quantity.value), plural(unit)),
              std::string(dimension_name(dimension(unit)))});
        return false;
    }

    static bool is_counted_in(const MovementDefinition& definition, Unit unit) {
        return std::ranges::any_of(definition.counted_in, [unit](Unit counted) {
            if (counted == unit) return true;
            return dimension(unit) != Dimension::count && dimension(unit) == dimension(counted);
        });
    }

    void fill_amounts(program::Part& part, const Series& series, Unit unit) {
        for (const auto& value : series.values) {
            if (value && !check_size(*value, unit)) return;
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
                return climb(part, series, unit);
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

    bool check_size(const syntax::Value& value, Unit unit) {
        const Ratio size = value.quantity.value;
        const bool is_count = dimension(unit) == Dimension::count;
        if (is_count && !size.is_whole()) {
            fail(Code::count_whole, value.span, {to_decimal(size)});
            return false;
        }
        const bool is_time = dimension(unit) == Dimension::time;
        const Ratio base = value.has_unit ? in_base_units(value.quantity) : size;
        const Ratio most = is_time ? Ratio(longest_seconds) : Ratio(largest_count);
        if (base > most) {
            const std::string limit = is_time    ? "24 h"
                                      : is_count ? fmt::format("{} {}", largest_count, plural(unit))
                                                 : "100 km";
            fail(Code::number_too_large, value.span, {to_decimal(size), limit});
            return false;
        }
        return true;
    }

    // Every rung from each turning point to the next.
    void climb(program::Part& part, const Series& series, Unit unit) {
        const Ratio first = series.values.front()->quantity.value;
        part.amounts.push_back({AmountForm::exact, {first, unit}, {first, unit}});
        for (std::size_t i = 0; i + 1 < series.values.size(); ++i) {
            const Ratio from = series.values[i]->quantity.value;
            const Ratio to = series.values[i + 1]->quantity.value;
            const Ratio step = from < to ? Ratio(series.step) : Ratio(-series.step);
            const Ratio rungs = (to - from) / step;
            if (rungs + Ratio(static_cast<std::int64_t>(part.amounts.size())) > Ratio(most_sets)) {
                return fail(Code::too_many, series.span,
                            {"more rungs than that", std::to_string(most_sets)});
            }
            for (Ratio rung = from + step;; rung += step) {
                part.amounts.push_back({AmountForm::exact, {rung, unit}, {rung, unit}});
                if (rung == to) break;
            }
        }
    }

    // Sides, against what each movement's definition says.
    void check_sides() {
        program::Sides& sides = draft_.item.sides;
        if (dose_.work->side) sides = to_sides(*dose_.work->side);
        for (const program::Part& part : draft_.item.parts) {
            if (!part.definition) continue;
            const auto& defined = definitions_.movements[*part.definition].sides;
            if (!defined) continue;
            check_defined_sides(part, *defined);
            if (draft_.tainted) return;
        }
        if (sides.rule == program::SideRule::alternating) check_even();
    }

    void check_defined_sides(const program::Part& part, const program::Sides& defined) {
        const Span amount = dose_.work->span;
        const bool said = dose_.work->side.has_value();
        if (defined.rule == program::SideRule::unsided && said) {
            const Span side = dose_.work->side->span;
            fail(Code::side_not_taken, side, {part.name, side_text(draft_.item.sides)},
                 {{"leave it out", {Edit{{dose_.work->parts.back().span.end, side.end}, ""}}}});
        }
        if (defined.rule == program::SideRule::unsided || said) return;
        const std::string each = defined.rule == program::SideRule::each
                                     ? side_text(defined)
                                     : side_text({program::SideRule::each, defined.word});
        const Span end{amount.end, amount.end};
        fail(Code::side_missing, amount, {part.name, "the amount", each},
             {{each, {Edit{end, " " + each}}}, {"alternating", {Edit{end, " alternating"}}}});
    }

    void check_even() {
        for (const program::Part& part : draft_.item.parts) {
            for (const Amount& amount : part.amounts) {
                if (dimension(amount.high.unit) != Dimension::count) continue;
                if ((amount.high.value / Ratio(2)).is_whole()) continue;
                sink_.report({Code::alternating_odd,
                              dose_.work->span,
                              {to_decimal(amount.high.value)},
                              {},
                              {}});
                return;
            }
        }
    }

    // Loads: one for all sets, or a list with one for each.
    void add_loads() {
        if (dose_.load.empty()) return;
        std::size_t count = 1;
        for (const syntax::LoadTerm& term : dose_.load) {
            if (!check_term(term)) return;
            count = std::max(count, value_count(term.weight));
        }
        const std::size_t sets = draft_.item.set_count();
        // A list of loads may also say how many rounds a single amount is done.
        if (count > 1 && sets > 1 && count != sets) {
            return fail(Code::list_length, dose_.load_span,
                        {"The load", std::to_string(count), "the amount", std::to_string(sets)});
        }
        for (std::size_t i = 0; i < count; ++i) {
            program::Load& load = draft_.item.loads.emplace_back();
            for (const syntax::LoadTerm& term : dose_.load)
                load.terms.push_back(to_term(term, i));
        }
    }

    static std::size_t value_count(const Series& series) {
        return series.form == SeriesForm::list ? series.values.size() : 1;
    }

    bool check_term(const syntax::LoadTerm& term) {
        if (term.kind != syntax::LoadKind::mass) return true;
        if (term.weight.form == SeriesForm::ladder) {
            fail(Code::not_read_yet, term.weight.span, {"a ladder of loads"});
            return false;
        }
        const auto missing =
            std::ranges::find_if(term.weight.values, [](const auto& value) { return !value; });
        if (missing != term.weight.values.end()) {
            fail(Code::load_expected, term.weight.span, {});
            return false;
        }
        const syntax::Value& value = **term.weight.values.rbegin();
        const std::string number = to_decimal(value.quantity.value);
        if (!value.has_unit) {
            const Span end{value.span.end, value.span.end};
            fail(Code::load_unit, value.span, {number},
                 {{number + " kg", {Edit{end, " kg"}}}, {number + " lb", {Edit{end, " lb"}}}});
            return false;
        }
        const Dimension what = dimension(value.quantity.unit);
        if (what == Dimension::share) {
            fail(Code::not_read_yet, term.weight.span, {"a share of a tested max"});
            return false;
        }
        if (what != Dimension::mass) {
            fail(Code::load_dimension, term.weight.span,
                 {fmt::format("{} {}", number, plural(value.quantity.unit)),
                  std::string(dimension_name(what))});
            return false;
        }
        if (term.implements && term.implements->quantity.value == Ratio(0)) {
            fail(Code::implements, term.implements->span, {"0"});
            return false;
        }
        constexpr std::int64_t heaviest_kg = 2000;
        if (in_base_units(value.quantity) > Ratio(heaviest_kg)) {
            fail(Code::number_too_large, value.span, {number, fmt::format("{} kg", heaviest_kg)});
            return false;
        }
        return true;
    }

    static program::LoadTerm to_term(const syntax::LoadTerm& term, std::size_t set) {
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

    void add_details() {
        if (dose_.tempo) add_tempo(*dose_.tempo);
        if (dose_.hold) {
            draft_.item.hold =
                program::Hold{dose_.hold->time.quantity, clean_text(dose_.hold->label)};
        }
        if (dose_.arc) add_arc(*dose_.arc);
        for (const syntax::Rest& rest : dose_.rests)
            add_rest(rest);
        if (dose_.if_no && line_.kind != grammar::LineKind::open_substitute) {
            fail(Code::line_not_here, dose_.if_no->span,
                 {"if no", "It belongs to a substitute: or NAME: 8, if no KIT."});
        }
    }

    void add_tempo(const syntax::Tempo& tempo) {
        for (const program::Part& part : draft_.item.parts) {
            for (const Amount& amount : part.amounts) {
                if (amount.low.unit == Unit::reps) continue;
                return fail(Code::tempo_on_time, tempo.span,
                            {std::string(dimension_name(dimension(amount.low.unit))) + " in " +
                             std::string(plural(amount.low.unit))});
            }
        }
        program::Tempo& result = draft_.item.tempo.emplace();
        for (std::size_t i = 0; i < 4; ++i) {
            const bool fast = tempo.phases[i] < 0;
            result.phases[i] = {fast ? 1 : tempo.phases[i], fast};
        }
    }

    void add_arc(const syntax::Arc& arc) {
        program::Arc& result = draft_.item.arc.emplace();
        result.first = arc.first.value.quantity;
        result.first_label = clean_text(arc.first.label);
        if (!arc.second) return;
        result.second = arc.second->value.quantity;
        result.second_label = clean_text(arc.second->label);
    }

    void add_rest(const syntax::Rest& rest) {
        const bool each_side = draft_.item.sides.rule == program::SideRule::each;
        if (rest.place == syntax::RestPlace::rounds ||
            (rest.place == syntax::RestPlace::sides && !each_side)) {
            const bool rounds = rest.place == syntax::RestPlace::rounds;
            return fail(Code::rest_not_here, rest.span,
                        {rounds ? "rounds" : "sides", "a movement line",
                         rounds ? "Rounds belong to the block."
                                : "The movement does not change sides within a set."});
        }
        auto& place = rest.place == syntax::RestPlace::sides ? draft_.item.rest_between_sides
                                                             : draft_.item.rest;
        if (place) return fail(Code::detail_twice, rest.span, {"rest"});
        place = to_rest(rest);
    }

    const syntax::Line& line_;
    const syntax::Dose& dose_;
    const Definitions& definitions_;
    DiagnosticSink& sink_;
    DraftItem& draft_;
};

}  // namespace

DraftItem check_dose(const syntax::Line& line, const Definitions& definitions,
                     DiagnosticSink& sink) {
    DraftItem draft;
    draft.item.span = line.span;
    const auto* dose = std::get_if<syntax::Dose>(&line.body);
    if (dose == nullptr) {
        draft.tainted = true;
        return draft;
    }
    DoseChecker(line, *dose, definitions, sink, draft).run();
    return draft;
}

}  // namespace stave::check
