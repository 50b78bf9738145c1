#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compiler/check/dose_context.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

// Terms up to the next `then`: what is held together.
using Together = std::vector<const syntax::LoadTerm*>;

std::vector<Together> split_at_then(const std::vector<syntax::LoadTerm>& load) {
    std::vector<Together> groups(1);
    for (const syntax::LoadTerm& term : load) {
        if (term.follows_then) groups.emplace_back();
        groups.back().push_back(&term);
    }
    return groups;
}

// The loads of one group, as many as its lists are long; empty after an error.
std::vector<program::Load> loads_of(const DoseContext& context, const Together& terms) {
    std::size_t count = 1;
    for (const syntax::LoadTerm* term : terms) {
        const std::size_t own = value_count(*term);
        if (own > 1 && count > 1 && own != count) {
            context.fail(Code::load_length, context.dose.load_span,
                         {std::to_string(count), std::to_string(own)});
            return {};
        }
        count = std::max(count, own);
    }
    std::vector<program::Load> loads(count);
    for (std::size_t i = 0; i < count; ++i) {
        for (const syntax::LoadTerm* term : terms)
            loads[i].terms.push_back(to_term(*term, i));
    }
    return loads;
}

const syntax::EachWave* find_wave(const syntax::Dose& dose) {
    for (const syntax::Detail& detail : dose.details) {
        if (const auto* wave = std::get_if<syntax::EachWave>(&detail)) return wave;
    }
    return nullptr;
}

// Gives every wave after the first the load of the one before, a step on.
bool add_waves(const DoseContext& context, std::size_t waves) {
    const syntax::EachWave* wave = find_wave(context.dose);
    std::vector<program::Load>& loads = context.draft.item.loads;
    const std::size_t sets = context.draft.item.set_count();
    const std::size_t length = sets / waves;
    if (loads.size() != 1 && loads.size() != length) return true;
    if (loads.size() == 1 && wave == nullptr) return true;
    if (loads.size() == 1) loads.resize(length, loads.front());
    loads.reserve(sets);
    for (std::size_t set = length; set < sets; ++set) {
        program::Load load = loads[set - length];
        for (program::LoadTerm& term : load.terms) {
            if (wave == nullptr) continue;
            const Quantity step = wave->step.quantity;
            const bool fits = wave->step.has_unit && term.low.unit == step.unit;
            const Ratio change = wave->up ? step.value : Ratio(0) - step.value;
            if (!fits || term.low.value + change <= Ratio(0)) {
                context.fail(Code::wave_step, wave->span,
                             {std::string(context.text_of(wave->step.span))});
                return false;
            }
            term.low.value += change;
            term.high.value += change;
        }
        loads.push_back(std::move(load));
    }
    return true;
}

bool takes(const program::MovementDefinition& movement, program::LoadKind kind) {
    using program::LoadKind;
    const auto has = [&](program::LoadedWith what) {
        return std::ranges::find(movement.loaded_with, what) != movement.loaded_with.end();
    };
    switch (kind) {
        case LoadKind::mass:
        case LoadKind::empty_bar:
            return has(program::LoadedWith::weight) || has(program::LoadedWith::bodyweight);
        case LoadKind::band:
            return has(program::LoadedWith::band) || has(program::LoadedWith::bodyweight);
        case LoadKind::power:
            return has(program::LoadedWith::power) || has(program::LoadedWith::pace);
        case LoadKind::rate:
        case LoadKind::test_pace:
            return has(program::LoadedWith::pace) || has(program::LoadedWith::power);
        default:
            return true;
    }
}

std::string_view load_name(program::LoadKind kind) {
    using program::LoadKind;
    switch (kind) {
        case LoadKind::band:
            return "a band";
        case LoadKind::power:
            return "a power";
        case LoadKind::rate:
        case LoadKind::test_pace:
            return "a pace";
        default:
            return "a weight";
    }
}

std::string list_of(const std::vector<program::LoadedWith>& what) {
    std::string text;
    for (const program::LoadedWith one : what) {
        if (!text.empty()) text += ", ";
        text += grammar::loaded_with_word(one);
    }
    return text;
}

// The load against what each movement says it takes; of joined movements one is
// enough.
void check_taken(const DoseContext& context) {
    const program::Item& item = context.draft.item;
    for (const program::LoadTerm& term : item.loads.front().terms) {
        const program::MovementDefinition* refuses = nullptr;
        for (const program::Part& part : item.parts) {
            if (!part.definition) return;
            const auto& movement = context.definitions.movements[*part.definition];
            if (movement.loaded_with.empty() || takes(movement, term.kind)) {
                refuses = nullptr;
                break;
            }
            refuses = &movement;
        }
        if (refuses == nullptr) continue;
        context.sink.report(
            {Code::load_taken,
             context.dose.load_span,
             {refuses->name, std::string(load_name(term.kind)), list_of(refuses->loaded_with)},
             {},
             {}});
        return;
    }
}

}  // namespace

void add_loads(const DoseContext& context) {
    if (context.dose.load.empty()) return;
    for (const syntax::LoadTerm& term : context.dose.load) {
        if (!check_term(context, term)) return;
    }
    std::vector<program::Load>& loads = context.draft.item.loads;
    for (const Together& terms : split_at_then(context.dose.load)) {
        const auto more = loads_of(context, terms);
        if (more.empty()) return;
        loads.insert(loads.end(), more.begin(), more.end());
    }
    const syntax::WorkStep* step = context.dose.work ? &context.dose.work->first : nullptr;
    if (step != nullptr && step->waves && context.dose.work->next.empty()) {
        const auto waves = static_cast<std::size_t>(step->waves->quantity.value.numerator());
        if (waves > 0 && !add_waves(context, waves)) return;
    }
    const std::size_t sets = context.draft.item.set_count();
    // A list of loads may also say how many rounds a single amount is done.
    if (loads.size() > 1 && sets > 1 && loads.size() != sets) {
        return context.fail(
            Code::list_length, context.dose.load_span,
            {"The load", std::to_string(loads.size()), "the amount", std::to_string(sets)});
    }
    check_taken(context);
}

}  // namespace stave::check
