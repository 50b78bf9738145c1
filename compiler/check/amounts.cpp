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

// The movement that is known under the name; else that is said.
const MovementDefinition* find_definition(const DoseContext& context, const syntax::Word& name) {
    const std::string folded = fold_name(name.text);
    const MovementDefinition* definition = context.definitions.find(folded);
    const bool game = context.line.kind == grammar::LineKind::open_game;
    if (definition == nullptr && !game) context.unknown.meet(name, folded);
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

// Adds the series' amounts to the part; false after an error.
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

// The program's name for a movement, and what is known of it.
const MovementDefinition* open_part(const DoseContext& context, const syntax::Word& name) {
    program::Part& part = context.draft.item.parts.emplace_back();
    part.name = clean_text(name.text);
    part.is_game = context.line.kind == grammar::LineKind::open_game;
    if (part.name.empty()) {
        context.fail(Code::head_missing, name.span, {});
        return nullptr;
    }
    const MovementDefinition* definition = find_definition(context, name);
    if (definition != nullptr) {
        part.definition =
            static_cast<std::uint32_t>(definition - context.definitions.movements.data());
    }
    return definition;
}

// The number of sets or waves that is said, 1 where none is; 0 after an error.
std::size_t count_of(const DoseContext& context, const std::optional<syntax::Value>& said,
                     std::string_view what) {
    if (!said) return 1;
    const std::int64_t count = said->quantity.value.numerator();
    if (count > most_sets) {
        context.fail(Code::too_many, said->span, {std::string(what), std::to_string(most_sets)});
        return 0;
    }
    constexpr std::int64_t many_sets = 12;
    if (count > many_sets) {
        context.sink.report(
            {Code::count_high, said->span, {fmt::format("{} sets", count)}, {}, {}});
    }
    return static_cast<std::size_t>(count);
}

void set_pieces(const DoseContext& context, program::Part& part,
                std::vector<program::Amount> pieces, std::optional<Quantity> rest, Span span);

// A bracket's amount as a series of its own.
Series series_of(const syntax::GroupPart& part, Span span) {
    Series series;
    series.span = span;
    if (!part.amount) {
        series.form = SeriesForm::max;
        return series;
    }
    series.values.push_back(part.amount);
    series.span = part.amount->span;
    return series;
}

// "5 x (2 + 2 + 2, rest 15 s)" of one movement.
void add_cluster(const DoseContext& context, program::Part& part,
                 const MovementDefinition* definition, const syntax::Group& group) {
    if (!group.rest) {
        const std::string said(context.text_of({group.span.begin, group.span.end - 1}));
        const std::string mended = said + ", rest 15 s)";
        const Span end{group.span.end - 1, group.span.end - 1};
        return context.fail(Code::cluster_rest, group.span, {mended},
                            {{", rest 15 s", {Edit{end, ", rest 15 s"}}}});
    }
    program::Part pieces_part;
    pieces_part.name = part.name;
    for (const syntax::GroupPart& piece : group.parts) {
        const std::int64_t times = piece.times ? piece.times->quantity.value.numerator() : 1;
        if (times > most_sets) {
            return context.fail(Code::too_many, piece.times->span,
                                {"pieces of one set", std::to_string(most_sets)});
        }
        const std::size_t before = pieces_part.amounts.size();
        if (!add_series(context, pieces_part, definition, series_of(piece, group.span))) return;
        const program::Amount amount = pieces_part.amounts[before];
        pieces_part.amounts.insert(pieces_part.amounts.end(), static_cast<std::size_t>(times - 1),
                                   amount);
    }
    part.counted_by_default = pieces_part.counted_by_default;
    set_pieces(context, part, std::move(pieces_part.amounts), group.rest->quantity, group.span);
}

// "clean + jerk: 3 x (1 + 1)": the bracket holds one set of both.
void add_complex(const DoseContext& context, const syntax::Group& group) {
    if (group.rest) return context.fail(Code::cluster_joined, group.rest->span, {});
    for (std::size_t i = 0; i < group.parts.size(); ++i) {
        if (group.parts[i].times) {
            return context.fail(Code::group_several, group.span,
                                {std::string(context.text_of(group.span))});
        }
        const MovementDefinition* definition = open_part(context, context.line.names[i]);
        if (context.draft.tainted) return;
        if (!add_series(context, context.draft.item.parts.back(), definition,
                        series_of(group.parts[i], group.span))) {
            return;
        }
    }
}

// Puts the sum of the pieces where the set's amount belongs.
void set_pieces(const DoseContext& context, program::Part& part,
                std::vector<program::Amount> pieces, std::optional<Quantity> rest, Span span) {
    program::Amount sum = pieces.front();
    for (std::size_t i = 1; i < pieces.size(); ++i) {
        const program::Amount& piece = pieces[i];
        if (piece.low.unit != sum.low.unit) {
            return context.fail(
                Code::list_mixed, span,
                {std::string(plural(sum.low.unit)), std::string(plural(piece.low.unit))});
        }
        if (piece.form == AmountForm::max) sum.form = AmountForm::max;
        sum.low.value += piece.low.value;
        sum.high.value += piece.high.value;
    }
    if (sum.form == AmountForm::max) sum.low.value = sum.high.value = Ratio(0);
    if (sum.high.value > Ratio(largest_count)) {
        return context.fail(Code::number_too_large, span,
                            {to_decimal(sum.high.value), std::to_string(largest_count)});
    }
    part.amounts.assign(1, sum);
    context.draft.item.details.emplace_back(program::Pieces{std::move(pieces), rest});
}

// One step of one movement: its amounts, as often as its sets and waves say.
void add_step(const DoseContext& context, const MovementDefinition* definition,
              const syntax::WorkStep& step) {
    program::Part& part = context.draft.item.parts.front();
    const std::size_t before = part.amounts.size();
    if (step.group) {
        add_cluster(context, part, definition, *step.group);
        if (context.draft.tainted) return;
    } else if (!add_series(context, part, definition, step.parts.front())) {
        return;
    }
    if (!step.group && step.parts.front().extent == syntax::Extent::ladder) {
        auto rungs = std::move(part.amounts);
        set_pieces(context, part, std::move(rungs), std::nullopt, step.parts.front().span);
        if (context.draft.tainted) return;
    }
    const std::size_t sets = step.waves ? count_of(context, step.waves, "waves of one movement")
                                        : count_of(context, step.sets, "sets of one movement");
    if (sets == 0) return;
    const std::size_t size = part.amounts.size() - before;
    if (size * sets + before > static_cast<std::size_t>(most_sets)) {
        return context.fail(Code::too_many, step.span,
                            {"sets of one movement", std::to_string(most_sets)});
    }
    const std::vector<program::Amount> once(
        part.amounts.begin() + static_cast<std::ptrdiff_t>(before), part.amounts.end());
    for (std::size_t i = 1; i < sets; ++i)
        part.amounts.insert(part.amounts.end(), once.begin(), once.end());
    context.draft.says_sets = context.draft.says_sets || step.sets.has_value();
}

void report_count(const DoseContext& context, std::size_t amounts) {
    const std::size_t names = context.line.names.size();
    context.fail(Code::joined_count, context.dose.work->span,
                 {fmt::format("{} movement{}", names, names == 1 ? "" : "s"),
                  fmt::format("{} amount{}", amounts, amounts == 1 ? "" : "s")});
}

// Several movements, an amount for each.
void add_joined(const DoseContext& context) {
    const syntax::Work& work = *context.dose.work;
    const syntax::WorkStep& step = work.first;
    const std::size_t amounts = step.group ? step.group->parts.size() : step.parts.size();
    if (amounts != context.line.names.size() || !work.next.empty() || step.waves) {
        return report_count(context, work.next.empty() && !step.waves ? amounts : 1);
    }
    if (step.group) {
        add_complex(context, *step.group);
    } else {
        for (std::size_t i = 0; i < amounts; ++i) {
            const MovementDefinition* definition = open_part(context, context.line.names[i]);
            if (context.draft.tainted) return;
            const bool ok =
                add_series(context, context.draft.item.parts.back(), definition, step.parts[i]);
            if (!ok) return;
        }
    }
    if (context.draft.tainted) return;
    for (const program::Part& part : context.draft.item.parts) {
        if (part.amounts.size() != context.draft.item.set_count()) {
            return context.fail(Code::joined_lengths, work.span,
                                {context.draft.item.parts.front().name, part.name});
        }
    }
    const std::size_t sets = count_of(context, step.sets, "sets of one movement");
    if (!step.sets || sets == 0) return;
    context.draft.says_sets = true;
    for (program::Part& part : context.draft.item.parts)
        part.amounts.assign(sets, part.amounts.front());
}

// The time that each set is to be done in.
void add_within(const DoseContext& context) {
    const syntax::Work& work = *context.dose.work;
    if (!work.within) return;
    for (const program::Part& part : context.draft.item.parts) {
        for (const program::Amount& amount : part.amounts) {
            if (dimension(amount.low.unit) != Dimension::time) continue;
            return context.fail(Code::within_not_here, work.within->span, {"a length of time"});
        }
    }
    context.draft.item.details.emplace_back(program::Within{work.within->quantity});
}

}  // namespace

std::vector<std::optional<syntax::Value>> spread(const Series& series) {
    return series.form == SeriesForm::ladder ? climb(series) : series.values;
}

void add_bare_parts(const DoseContext& context) {
    for (const syntax::Word& name : context.line.names) {
        static_cast<void>(open_part(context, name));
        if (context.draft.tainted) return;
        context.draft.item.parts.back().amounts.push_back({});
    }
}

void add_parts(const DoseContext& context) {
    const syntax::Work& work = *context.dose.work;
    const std::size_t names = context.line.names.size();
    if (names > most_joined) {
        return context.fail(Code::too_many, work.span,
                            {"joined movements in one line", std::to_string(most_joined)});
    }
    if (names != 1) {
        add_joined(context);
    } else {
        if (work.first.parts.size() > 1) return report_count(context, work.first.parts.size());
        const MovementDefinition* definition = open_part(context, context.line.names.front());
        if (context.draft.tainted) return;
        add_step(context, definition, work.first);
        for (const syntax::WorkStep& step : work.next) {
            if (context.draft.tainted) return;
            add_step(context, definition, step);
        }
    }
    if (!context.draft.tainted) add_within(context);
}

}  // namespace stave::check
