#include "compiler/check/check.hpp"
#include "compiler/check/dose_context.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using program::Amount;

void check_defined_sides(const DoseContext& context, const program::Part& part,
                         const program::Sides& defined) {
    const Span amount = context.dose.work->span;
    const bool said = context.dose.work->side.has_value();
    if (defined.rule == program::SideRule::unsided && said) {
        const Span side = context.dose.work->side->span;
        context.fail(
            Code::side_not_taken, side, {part.name, side_text(context.draft.item.sides)},
            {{"leave it out", {Edit{{context.dose.work->parts.back().span.end, side.end}, ""}}}});
    }
    if (defined.rule == program::SideRule::unsided || said) return;
    const std::string each = defined.rule == program::SideRule::each
                                 ? side_text(defined)
                                 : side_text({program::SideRule::each, defined.word});
    const Span end{amount.end, amount.end};
    context.fail(Code::side_missing, amount, {part.name, "the amount", each},
                 {{each, {Edit{end, " " + each}}}, {"alternating", {Edit{end, " alternating"}}}});
}

void check_even(const DoseContext& context) {
    for (const program::Part& part : context.draft.item.parts) {
        for (const Amount& amount : part.amounts) {
            if (dimension(amount.high.unit) != Dimension::count) continue;
            if ((amount.high.value / Ratio(2)).is_whole()) continue;
            context.sink.report({Code::alternating_odd,
                                 context.dose.work->span,
                                 {to_decimal(amount.high.value)},
                                 {},
                                 {}});
            return;
        }
    }
}

void add_tempo(const DoseContext& context, const syntax::Tempo& tempo) {
    for (const program::Part& part : context.draft.item.parts) {
        for (const Amount& amount : part.amounts) {
            if (amount.low.unit == Unit::reps) continue;
            return context.fail(Code::tempo_on_time, tempo.span,
                                {std::string(dimension_name(dimension(amount.low.unit))) + " in " +
                                 std::string(plural(amount.low.unit))});
        }
    }
    program::Tempo& result = context.draft.item.tempo.emplace();
    for (std::size_t i = 0; i < 4; ++i) {
        const bool fast = tempo.phases[i] < 0;
        result.phases[i] = {fast ? 1 : tempo.phases[i], fast};
    }
}

void add_arc(const DoseContext& context, const syntax::Arc& arc) {
    program::Arc& result = context.draft.item.arc.emplace();
    result.first = arc.first.value.quantity;
    result.first_label = clean_text(arc.first.label);
    if (!arc.second) return;
    result.second = arc.second->value.quantity;
    result.second_label = clean_text(arc.second->label);
}

void add_rest(const DoseContext& context, const syntax::Rest& rest) {
    program::Item& item = context.draft.item;
    const bool each_side = item.sides.rule == program::SideRule::each;
    const bool rounds = rest.place == syntax::RestPlace::rounds;
    if (rounds || (rest.place == syntax::RestPlace::sides && !each_side)) {
        return context.fail(Code::rest_not_here, rest.span,
                            {rounds ? "rounds" : "sides", "a movement line",
                             rounds ? "Rounds belong to the block."
                                    : "The movement does not change sides within a set."});
    }
    if (rest.place == syntax::RestPlace::sets) context.draft.rest_between_sets = rest.span;
    auto& place = rest.place == syntax::RestPlace::sides       ? item.rest_between_sides
                  : rest.place == syntax::RestPlace::movements ? item.rest_after
                                                               : item.rest;
    if (place) return context.fail(Code::detail_twice, rest.span, {"rest"});
    place = to_rest(rest);
}

// Whether every amount is a count, of which each one can be held.
bool counts_only(const DoseContext& context) {
    for (const program::Part& part : context.draft.item.parts) {
        for (const Amount& amount : part.amounts) {
            if (dimension(amount.low.unit) != Dimension::count) return false;
        }
    }
    return true;
}

struct DetailAdder {
    const DoseContext& context;

    void operator()(const syntax::Tempo& tempo) const { add_tempo(context, tempo); }
    void operator()(const syntax::Arc& arc) const { add_arc(context, arc); }
    void operator()(const syntax::Rest& rest) const { add_rest(context, rest); }
    void operator()(const syntax::Hold& hold) const {
        if (!counts_only(context)) return context.fail(Code::hold_without_reps, hold.span, {});
        context.draft.item.hold = program::Hold{hold.time.quantity, clean_text(hold.label)};
    }
    void operator()(const syntax::IfNo& missing) const {
        if (context.line.kind == grammar::LineKind::open_substitute) return;
        context.fail(Code::line_not_here, missing.kit.span,
                     {"if no", "It belongs to a substitute: or NAME: 8, if no KIT."});
    }
};

}  // namespace

void check_sides(const DoseContext& context) {
    program::Sides& sides = context.draft.item.sides;
    if (context.dose.work->side) sides = to_sides(*context.dose.work->side);
    for (const program::Part& part : context.draft.item.parts) {
        if (!part.definition) continue;
        const auto& defined = context.definitions.movements[*part.definition].sides;
        if (!defined) continue;
        check_defined_sides(context, part, *defined);
        if (context.draft.tainted) return;
    }
    if (sides.rule == program::SideRule::alternating) check_even(context);
}

void add_details(const DoseContext& context) {
    for (const syntax::Detail& detail : context.dose.details)
        std::visit(DetailAdder{context}, detail);
}

DraftItem check_dose(const syntax::Line& line, const Definitions& definitions,
                     DiagnosticSink& sink) {
    DraftItem draft;
    draft.item.span = line.span;
    const auto* dose = std::get_if<syntax::Dose>(&line.body);
    if (dose == nullptr) {
        draft.tainted = true;
        return draft;
    }
    const DoseContext context{line, *dose, definitions, sink, draft};
    if (!dose->work) {
        context.fail(Code::amount_missing, line.head.span, {clean_text(line.title.text)});
        return draft;
    }
    draft.amount_span = dose->work->span;
    add_parts(context);
    if (draft.tainted) return draft;
    check_sides(context);
    add_loads(context);
    add_details(context);
    return draft;
}

}  // namespace stave::check
