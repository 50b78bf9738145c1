#include <fmt/format.h>

#include "compiler/check/check.hpp"
#include "compiler/check/dose_context.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using program::Amount;

// Where the blanks before the side begin.
std::uint32_t side_begin(const DoseContext& context, Span side) {
    std::uint32_t begin = side.begin;
    while (context.text_of({begin - 1, begin}) == " ")
        --begin;
    return begin;
}

bool is_of_hands(const program::Sides& sides) {
    return sides.rule == program::SideRule::each &&
           (sides.word == program::SideWord::hand || sides.word == program::SideWord::arm ||
            sides.word == program::SideWord::side);
}

// Whether a detail says what each hand does, without a side being named.
bool says_hands(const syntax::Dose& dose, const program::Sides& defined) {
    return std::ranges::any_of(dose.details, [&](const syntax::Detail& detail) {
        if (std::holds_alternative<syntax::Swapped>(detail)) return true;
        return std::holds_alternative<syntax::SwapHands>(detail) && is_of_hands(defined);
    });
}

bool changes_direction(const DoseContext& context) {
    return context.draft.item.sides.rule == program::SideRule::there_and_back;
}

// "glute bridge: 8 each leg": the movement that does it with one leg or arm, or "".
std::string one_sided_kin(const DoseContext& context, const program::Part& part) {
    using program::SideWord;
    const SideWord word = context.draft.item.sides.word;
    const bool by_legs = word == SideWord::leg;
    for (const std::string_view prefix : {"single-leg ", "single-arm ", "one-arm "}) {
        if (word != SideWord::side && prefix.contains("leg") != by_legs) continue;
        std::string known =
            context.unknown.known_name(fmt::format("{}{}", prefix, part.folded_name));
        if (!known.empty()) return known;
    }
    return "";
}

// The coach's own definition holds; the library's only tells what is usual.
void report_side(const DoseContext& context, const program::Part& part, bool from_library) {
    const Span side = context.dose.work->side->span;
    std::vector<Fix> fixes{{"leave it out", {Edit{{side_begin(context, side), side.end}, ""}}}};
    const std::string said = side_text(context.draft.item.sides);
    if (!from_library) {
        return context.fail(Code::side_not_taken, side, {part.name, said}, std::move(fixes));
    }
    const std::string kin = one_sided_kin(context, part);
    if (!kin.empty()) fixes.push_back({kin, {Edit{context.line.names.front().span, kin}}});
    context.sink.report({Code::side_unusual,
                         side,
                         {part.name, said, kin.empty() ? "" : fmt::format(", or write {}", kin)},
                         std::move(fixes),
                         {}});
}

void check_defined_sides(const DoseContext& context, const program::Part& part,
                         const program::MovementDefinition& movement) {
    const program::Sides& defined = *movement.sides;
    const Span amount = context.dose.work->span;
    const bool said = context.dose.work->side.has_value() || says_hands(context.dose, defined);
    const bool one_part = context.draft.item.parts.size() == 1;
    if (defined.rule == program::SideRule::unsided) {
        if (!context.dose.work->side || changes_direction(context)) return;
        // One of several joined movements may be the one that takes sides.
        if (!one_part && movement.from_library) return;
        return report_side(context, part, movement.from_library);
    }
    if (said) return;
    if (!one_part && movement.from_library) return;
    if (defined.rule == program::SideRule::alternating) {
        if (one_part) context.draft.item.sides = defined;
        return;
    }
    const std::string each = side_text(defined);
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

// An interval is done on both sides where the movement has sides.
void take_defined_sides(const DoseContext& context) {
    const program::Item& item = context.draft.item;
    if (item.parts.size() != 1 || !item.parts.front().definition) return;
    const auto& defined = context.definitions.movements[*item.parts.front().definition].sides;
    if (defined) context.draft.item.sides = *defined;
}

}  // namespace

void check_sides(const DoseContext& context) {
    program::Sides& sides = context.draft.item.sides;
    if (context.dose.work->side) sides = to_sides(*context.dose.work->side);
    for (const program::Part& part : context.draft.item.parts) {
        if (!part.definition) continue;
        const auto& defined = context.definitions.movements[*part.definition].sides;
        if (!defined) continue;
        check_defined_sides(context, part, context.definitions.movements[*part.definition]);
        if (context.draft.tainted) return;
    }
    if (sides.rule == program::SideRule::alternating) check_even(context);
}

DraftItem check_dose(const syntax::Line& line, program::RunKind run, const Definitions& definitions,
                     UnknownMovements& unknown, DiagnosticSink& sink) {
    DraftItem draft;
    draft.item.span = said_span(line);
    draft.head_span = line.head.span;
    draft.column = line.head.span.begin - line.span.begin;
    const auto* dose = std::get_if<syntax::Dose>(&line.body);
    if (dose == nullptr) {
        draft.tainted = true;
        return draft;
    }
    const DoseContext context{line, *dose, definitions, unknown, sink, draft, run};
    draft.amount_span = dose->work ? dose->work->span : line.head.span;
    if (dose->on) {
        context.fail(Code::date_not_here, dose->on->span, {});
        return draft;
    }
    if (dose->work) {
        add_parts(context);
        if (draft.tainted) return draft;
        check_sides(context);
    } else {
        draft.without_amount = true;
        add_bare_parts(context);
        if (!draft.tainted) take_defined_sides(context);
    }
    if (draft.tainted) return draft;
    add_loads(context);
    add_details(context);
    return draft;
}

}  // namespace stave::check
