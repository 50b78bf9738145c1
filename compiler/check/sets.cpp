#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compiler/check/dose_context.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using program::AmountForm;
using program::MovementDefinition;
using syntax::Series;
using syntax::SeriesForm;

// The movement that is known under the name; else that is said.
const MovementDefinition* find_definition(const DoseContext& context, const syntax::Word& name,
                                          const std::string& folded) {
    const MovementDefinition* definition = context.definitions.find(folded);
    const bool game = context.line.kind == grammar::LineKind::open_game;
    // Without an amount that an interval gives, it may be no movement at all.
    const bool is_sure = context.dose.work || context.run == program::RunKind::intervals;
    if (definition == nullptr && !game && is_sure) context.unknown.meet(name, folded);
    return definition;
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
    part.folded_name = fold_name(name.text);
    const MovementDefinition* definition = find_definition(context, name, part.folded_name);
    if (definition != nullptr) {
        part.definition =
            static_cast<std::uint32_t>(definition - context.definitions.movements.data());
        part.folded_name = context.definitions.folded_names[*part.definition];
    }
    return definition;
}

// The number of sets or waves that is said, 1 where none is; 0 after an error.
std::size_t count_of(const DoseContext& context, const syntax::Value* said, std::string_view what) {
    if (said == nullptr) return 1;
    const std::int64_t count = said->quantity.value.numerator();
    if (count > most_sets) {
        context.fail(Code::too_many, said->span, {std::string(what), std::to_string(most_sets)});
        return 0;
    }
    return static_cast<std::size_t>(count);
}

// A slip of the finger, more often than not (common practice, no source).
void look_at_count(const DoseContext& context, const syntax::Value* said, std::string_view what) {
    constexpr std::int64_t many = 12;
    if (said == nullptr || said->quantity.value <= Ratio(many)) return;
    context.sink.report({Code::count_high,
                         said->span,
                         {fmt::format("{} {}", to_decimal(said->quantity.value), what)},
                         {},
                         {}});
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
    if (sum.high.value > Ratio(largest_count)) {
        return context.fail(Code::number_too_large, span,
                            {to_decimal(sum.high.value), std::to_string(largest_count)});
    }
    part.amounts.assign(1, sum);
    context.draft.item.details.emplace_back(program::Pieces{std::move(pieces), rest});
}

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

// "(20 + 10 s, rest 10 s)": a unit said once, last, is everybody's.
std::vector<syntax::GroupPart> with_one_unit(const syntax::Group& group) {
    std::vector<syntax::GroupPart> parts = group.parts;
    if (parts.empty() || !parts.back().amount || !parts.back().amount->has_unit) return parts;
    const Unit unit = parts.back().amount->quantity.unit;
    for (syntax::GroupPart& part : parts) {
        if (!part.amount || part.amount->has_unit) continue;
        part.amount->has_unit = true;
        part.amount->quantity.unit = unit;
    }
    return parts;
}

// "5 x (2 + 2 + 2, rest 15 s)" of one movement.
void add_cluster(const DoseContext& context, program::Part& part,
                 const MovementDefinition* definition, const syntax::Group& group) {
    if (!group.rest) {
        const std::string said(context.text_of({group.span.begin, group.span.end - 1}));
        // One amount needs no brackets.
        if (group.parts.size() == 1 && !group.parts.front().times) {
            const std::string alone = said.substr(said.find_first_not_of("( "));
            return context.fail(Code::cluster_rest, group.span, {alone + " without brackets"},
                                {{alone, {Edit{group.span, alone}}}});
        }
        return context.fail(Code::cluster_rest, group.span, {said + ", rest 15 s)"});
    }
    program::Part pieces_part;
    pieces_part.name = part.name;
    for (const syntax::GroupPart& piece : with_one_unit(group)) {
        const std::int64_t times = piece.times ? piece.times->quantity.value.numerator() : 1;
        const std::size_t before = pieces_part.amounts.size();
        if (times > most_sets - static_cast<std::int64_t>(before)) {
            return context.fail(Code::too_many, piece.times ? piece.times->span : group.span,
                                {"pieces of one set", std::to_string(most_sets)});
        }
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

// Keeps what is said of one set, for mends.
void note_sets(const DoseContext& context, const syntax::WorkStep& step) {
    if (!step.sets) return;
    DraftItem& draft = context.draft;
    draft.says_sets = true;
    const Span inner = step.group ? step.group->span : step.parts.front().span;
    const syntax::Work& work = *context.dose.work;
    const bool alone = work.next.empty();
    draft.one_set = context.text_of({inner.begin, alone ? work.span.end : inner.end});
    if (alone) draft.sets_prefix = {step.sets->span.begin, inner.begin};
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
    const std::size_t sets =
        step.waves ? count_of(context, step.waves.get(), "waves of one movement")
                   : count_of(context, step.sets ? &*step.sets : nullptr, "sets of one movement");
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
    look_at_count(context, step.waves.get(), "waves");
    look_at_count(context, step.sets ? &*step.sets : nullptr, "sets");
    note_sets(context, step);
}

// "5 + 5 + 5" for "5", and "3 x (5 + 5 + 5)" for "3 x 5".
std::string repeated_amount(std::string_view amount, std::size_t names) {
    const std::size_t times = amount.rfind(" x ");
    const bool in_sets = times != std::string_view::npos;
    const std::string_view one = in_sets ? amount.substr(times + 3) : amount;
    std::string all(one);
    for (std::size_t i = 1; i < names; ++i)
        all.append(" + ").append(one);
    return in_sets ? fmt::format("{} x ({})", amount.substr(0, times), all) : all;
}

void report_count(const DoseContext& context, std::size_t amounts) {
    const std::size_t names = context.line.names.size();
    const syntax::Work& work = *context.dose.work;
    const bool plain = amounts == 1 && names > 1 && !work.first.group && !work.first.waves &&
                       work.next.empty() && !work.within && !work.side;
    std::vector<Fix> fixes;
    std::string mended = "5..1 + 1..5";
    if (plain) {
        mended = repeated_amount(context.text_of(work.span), names);
        fixes.push_back({mended, {Edit{work.span, mended}}});
    }
    context.fail(Code::joined_count, work.span,
                 {fmt::format("{} movement{}", names, names == 1 ? "" : "s"),
                  fmt::format("{} amount{}", amounts, amounts == 1 ? "" : "s"), mended},
                 std::move(fixes));
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
    const std::size_t sets =
        count_of(context, step.sets ? &*step.sets : nullptr, "sets of one movement");
    if (!step.sets || sets == 0) return;
    look_at_count(context, &*step.sets, "sets");
    note_sets(context, step);
    for (program::Part& part : context.draft.item.parts)
        part.amounts.assign(sets, part.amounts.front());
}

// Whether a cluster stands beside other sets, which have no short rests.
bool is_cluster_among_others(const syntax::Work& work) {
    if (work.next.empty()) return false;
    const auto has_group = [](const syntax::WorkStep& step) { return step.group.has_value(); };
    return has_group(work.first) || std::ranges::any_of(work.next, has_group);
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
        if (is_cluster_among_others(work)) {
            return context.fail(Code::then_and_plus, work.span, {});
        }
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
