#include <algorithm>
#include <utility>

#include "compiler/check/dose_context.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using program::Amount;

void add_tempo(const DoseContext& context, const syntax::Tempo& tempo) {
    if (context.draft.item.find<program::LowerOnly>() != nullptr) {
        return context.fail(Code::tempo_and, tempo.span, {"lower"});
    }
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
    const bool each_side = item.sides.rule == program::SideRule::each ||
                           item.sides.rule == program::SideRule::swapped ||
                           item.sides.rule == program::SideRule::there_and_back;
    if (rest.place == syntax::RestPlace::rounds || rest.place == syntax::RestPlace::blocks) {
        const bool rounds = rest.place == syntax::RestPlace::rounds;
        return context.fail(Code::rest_not_here, rest.span,
                            {rounds ? "rounds" : "blocks", "a movement line",
                             rounds ? "Rounds belong to the block."
                                    : "It stands behind the block's colon or on a line of its "
                                      "own."});
    }
    if (rest.place == syntax::RestPlace::sides && !each_side) {
        return context.fail(
            Code::rest_not_here, rest.span,
            {"sides", "a movement line", "The movement does not change sides within a set."});
    }
    if (rest.place == syntax::RestPlace::sets) context.draft.rest_between_sets = rest.span;
    auto& place =
        rest.place == syntax::RestPlace::sides ? item.rest_between_sides
        : rest.place == syntax::RestPlace::movements || rest.place == syntax::RestPlace::stations
            ? item.rest_after
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

// Which load fits other reps can only be worked out where the reps change.
void add_load_change(const DoseContext& context, const syntax::LoadChange& change) {
    const program::Item& item = context.draft.item;
    const std::string said = change.rises ? "load rises" : "load falls";
    if (item.loads.size() > 1) {
        return context.fail(Code::load_change_list, change.span, {said});
    }
    const auto& amounts = item.parts.front().amounts;
    bool up = false;
    bool down = false;
    for (std::size_t i = 1; i < amounts.size(); ++i) {
        up = up || amounts[i].high.value > amounts[i - 1].high.value;
        down = down || amounts[i].high.value < amounts[i - 1].high.value;
    }
    if (!up && !down) return context.fail(Code::load_change_flat, change.span, {said});
    if (up != down && up == change.rises) {
        const std::string other = change.rises ? "load falls" : "load rises";
        return context.fail(Code::load_change_way, change.span, {said, other});
    }
    context.draft.item.details.emplace_back(program::LoadChange{change.rises});
}

void add_swap(const DoseContext& context, const syntax::SwapHands& swap) {
    const Unit unit = context.draft.item.parts.front().amounts.front().low.unit;
    const Unit own = swap.every.quantity.unit;
    const bool fits =
        dimension(unit) == dimension(own) && (dimension(unit) != Dimension::count || unit == own);
    if (!fits || swap.every.quantity.value == Ratio(0)) {
        return context.fail(Code::swap_unit, swap.span,
                            {std::string(context.text_of(swap.every.span))});
    }
    context.draft.item.details.emplace_back(program::SwapHands{swap.every.quantity});
}

void add_swapped(const DoseContext& context, const syntax::Swapped& swapped) {
    program::Sides& sides = context.draft.item.sides;
    if (context.dose.work && context.dose.work->side) {
        return context.fail(Code::swapped_sides, swapped.span, {side_text(sides)});
    }
    sides = {program::SideRule::swapped, program::SideWord::hand, false, false};
}

void add_side_first(const DoseContext& context, const syntax::SideFirst& first) {
    program::Sides& sides = context.draft.item.sides;
    if (sides.rule != program::SideRule::each && sides.rule != program::SideRule::alternating) {
        return context.fail(Code::side_first, first.span,
                            {first.left ? "left first" : "right first"});
    }
    sides.right_first = !first.left;
    sides.first_is_said = true;
}

void add_incline(const DoseContext& context, const syntax::Incline& incline) {
    program::Incline result;
    result.is_range = incline.value.form == syntax::SeriesForm::range;
    for (const auto& value : spread(incline.value))
        result.values.push_back(value->quantity);
    const std::size_t sets = context.draft.item.set_count();
    const bool by_set = !result.is_range && result.values.size() > 1;
    if (by_set && sets > 1 && result.values.size() != sets) {
        return context.fail(Code::list_length, incline.span,
                            {"The incline", std::to_string(result.values.size()), "the amount",
                             std::to_string(sets)});
    }
    context.draft.item.details.emplace_back(std::move(result));
}

// In and out stand in two details and are one breath.
void add_breath(const DoseContext& context, const syntax::Breath& breath) {
    program::Breath* found = nullptr;
    for (program::Detail& detail : context.draft.item.details) {
        if (auto* one = std::get_if<program::Breath>(&detail)) found = one;
    }
    if (found == nullptr) {
        found =
            &std::get<program::Breath>(context.draft.item.details.emplace_back(program::Breath{}));
    }
    Quantity& place = breath.in ? found->in : found->out;
    if (place.value != Ratio(0)) {
        return context.fail(Code::detail_twice, breath.span, {breath.in ? "breath in" : "out"});
    }
    place = breath.time.quantity;
}

bool breath_is_whole(const program::Item& item) {
    const auto* breath = item.find<program::Breath>();
    return breath == nullptr || (breath->in.value > Ratio(0) && breath->out.value > Ratio(0));
}

Span breath_span(const syntax::Dose& dose) {
    for (const syntax::Detail& detail : dose.details) {
        if (const auto* breath = std::get_if<syntax::Breath>(&detail)) return breath->span;
    }
    return {};
}

struct DetailAdder {
    const DoseContext& context;

    template <typename Kind>
    void add(Kind detail) const {
        context.draft.item.details.emplace_back(std::move(detail));
    }
    // Details that say how each repetition is done.
    [[nodiscard]] bool needs_reps(Span span) const {
        if (counts_only(context)) return true;
        context.fail(Code::detail_needs_reps, span, {std::string(context.text_of(span))});
        return false;
    }

    void operator()(const syntax::Tempo& tempo) const { add_tempo(context, tempo); }
    void operator()(const syntax::Arc& arc) const { add_arc(context, arc); }
    void operator()(const syntax::Rest& rest) const { add_rest(context, rest); }
    void operator()(const syntax::LoadChange& change) const { add_load_change(context, change); }
    void operator()(const syntax::SwapHands& swap) const { add_swap(context, swap); }
    void operator()(const syntax::Swapped& swapped) const { add_swapped(context, swapped); }
    void operator()(const syntax::SideFirst& first) const { add_side_first(context, first); }
    void operator()(const syntax::Incline& incline) const { add_incline(context, incline); }
    void operator()(const syntax::Breath& breath) const { add_breath(context, breath); }
    // Paired with its rest while the line is read.
    void operator()(const syntax::About& /*about*/) const {}
    void operator()(const syntax::Hold& hold) const {
        if (!counts_only(context)) return context.fail(Code::hold_without_reps, hold.span, {});
        context.draft.item.hold = program::Hold{hold.time.quantity, clean_text(hold.label)};
    }
    void operator()(const syntax::Pause& pause) const {
        if (!needs_reps(pause.span)) return;
        add(program::Pause{pause.time.quantity, clean_text(pause.label)});
    }
    void operator()(const syntax::LowerOnly& lower) const {
        if (!needs_reps(lower.span)) return;
        if (context.draft.item.tempo) {
            return context.fail(Code::tempo_and, lower.span, {"lower"});
        }
        add(program::LowerOnly{lower.time.quantity});
    }
    void operator()(const syntax::HoldAt& hold) const { add(program::HoldAt{hold.angle.quantity}); }
    void operator()(const syntax::Height& height) const {
        add(program::Height{height.over, height.value.quantity});
    }
    void operator()(const syntax::EachWave& wave) const {
        const bool waves = context.dose.work && context.dose.work->first.waves;
        if (!waves || context.dose.load.empty()) context.fail(Code::wave_alone, wave.span, {});
    }
    void operator()(const syntax::Effort& effort) const {
        if (auto term = to_effort(context, effort.term)) add(program::Effort{std::move(*term)});
    }
    void operator()(const syntax::Condition& condition) const {
        if (context.line.kind == grammar::LineKind::open_substitute) return;
        const std::string reason = clean_text(condition.reason.text);
        context.fail(Code::line_not_here, condition.reason.span,
                     {"if", "It belongs to a substitute.",
                      "Write it on a line below this one: or NAME: 8, if " + reason});
    }
};

}  // namespace

void add_details(const DoseContext& context) {
    for (const syntax::Detail& detail : context.dose.details)
        std::visit(DetailAdder{context}, detail);
    if (context.draft.tainted || breath_is_whole(context.draft.item)) return;
    context.fail(Code::breath_form, breath_span(context.dose), {});
}

}  // namespace stave::check
