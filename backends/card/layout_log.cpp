#include "backends/card/layout_log.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stave::card::layout {

namespace {

using program::Amount;
using program::AmountForm;
using program::Item;
using program::LoadKind;
using program::RunKind;

constexpr std::string_view clock_unit = "min:s";

bool is_race(const program::Block& block) {
    return block.run == RunKind::as_many || block.run == RunKind::for_time;
}

// The amount that is for the athlete to find, if there is one.
const Amount* open_amount(const Item& item) {
    for (const program::Part& part : item.parts) {
        const auto open = std::ranges::find_if(part.amounts, [](const Amount& amount) {
            return amount.form == AmountForm::max || amount.form == AmountForm::at_least;
        });
        if (open != part.amounts.end()) return &*open;
    }
    return nullptr;
}

const program::MovementDefinition* definition_of(const Context& context, const Item& item) {
    const auto& definition = item.parts.front().definition;
    return definition ? &context.program.movements[*definition] : nullptr;
}

bool takes_weights(const Context& context, const Item& item) {
    const program::MovementDefinition* definition = definition_of(context, item);
    if (definition == nullptr || definition->loaded_with.empty()) return true;
    return std::ranges::find(definition->loaded_with, program::LoadedWith::weight) !=
           definition->loaded_with.end();
}

// The unit of the weight in the athlete's hands, also where the card leaves the
// kilograms to them.
std::optional<Unit> weight_unit(const Context& context, const Item& item) {
    if (item.loads.empty()) return std::nullopt;
    const Dimension counted = dimension(item.parts.front().amounts.front().low.unit);
    for (const program::LoadTerm& term : item.loads.front().terms) {
        switch (term.kind) {
            case LoadKind::mass:
                return term.low.unit;
            case LoadKind::share_of_max:
            case LoadKind::share_of:
            case LoadKind::rep_max:
            case LoadKind::last_time:
                return Unit::kilogram;
            case LoadKind::rpe:
            case LoadKind::reserve:
                if (counted == Dimension::count && takes_weights(context, item))
                    return Unit::kilogram;
                break;
            default:
                break;
        }
    }
    return std::nullopt;
}

// A unit behind a line to write on, where the number is not known.
std::string unit_of_line(const Context& context, Unit unit) {
    return std::string(
        wording::unit_word(context.language, unit, wording::plural_of_unknown(context.language)));
}

// What is counted while a given time runs: what the movement counts besides times. Empty
// for a hold, which is counted in breaths at most, and where it is not known.
std::string counted_in_time(const Context& context, const program::Block& block, const Item& item) {
    const program::MovementDefinition* definition = definition_of(context, item);
    if (definition == nullptr) {
        return block.run == RunKind::intervals ? unit_of_line(context, Unit::reps) : "";
    }
    if (definition->counted_in.empty()) return unit_of_line(context, Unit::reps);
    const std::vector<Unit>& units = definition->counted_in;
    const bool is_held = dimension(units.front()) == Dimension::time &&
                         std::ranges::find(units, Unit::breaths) != units.end();
    const auto counted =
        std::ranges::find_if(units, [](Unit unit) { return dimension(unit) != Dimension::time; });
    return is_held || counted == units.end() ? "" : unit_of_line(context, *counted);
}

// The weight in figures stands on the card.
bool says_weight(const Item& item) {
    return std::ranges::any_of(item.loads.front().terms, [](const program::LoadTerm& term) {
        return term.kind == LoadKind::mass;
    });
}

// Of a set whose weight is for the athlete to find as well ("5 or more @ 85 %"), both.
std::vector<std::string> units_of_open(const Context& context, const Item& item,
                                       const Amount& open) {
    std::vector<std::string> units;
    const auto weight = weight_unit(context, item);
    if (weight && !says_weight(item)) units.push_back(unit_of_line(context, *weight));
    units.push_back(unit_of_line(context, open.low.unit));
    return units;
}

// A unit for each line to write on, empty for a line without one; none where there is nothing to
// write.
std::vector<std::string> log_units(const Context& context, const program::Block& block,
                                   const Item& item) {
    if (item.is_blank()) return {};
    const Amount& first = item.parts.front().amounts.front();
    if (first.form == AmountForm::best_of) return {""};
    if (const Amount* open = open_amount(item)) return units_of_open(context, item, *open);
    const Dimension counted = dimension(first.low.unit);
    if (block.run == RunKind::intervals) {
        return {counted == Dimension::time ? counted_in_time(context, block, item)
                                           : unit_of_line(context, first.low.unit)};
    }
    if (const auto unit = weight_unit(context, item)) return {unit_of_line(context, *unit)};
    if (is_race(block)) return {};
    if (counted == Dimension::time) return {counted_in_time(context, block, item)};
    if (counted == Dimension::length || counted == Dimension::energy) {
        return {std::string(clock_unit)};
    }
    return {unit_of_line(context, first.low.unit)};
}

}  // namespace

bool has_log(const Context& context, const program::Block& block) {
    return context.style.has_log() && std::ranges::any_of(block.items, [&](const Item& item) {
               return !log_units(context, block, item).empty();
           });
}

Centipoints draw_log(Piece& piece, const Context& context, const program::Block& block,
                     const Item& item, Centipoints baseline) {
    if (!context.style.has_log()) return baseline;
    const TextStyle style = context.style.unit();
    // Room for handwriting.
    const Centipoints pitch = context.style.space(15);
    Centipoints bottom = baseline;
    for (const std::string& unit : log_units(context, block, item)) {
        const Centipoints width = context.fonts.measure(style.face, style.size, unit);
        const Centipoints gap = unit.empty() ? 0 : points(4);
        dotted(piece, context.style.log_left(), context.grid().right - width - gap,
               baseline + points(1));
        if (!unit.empty()) draw(piece, context.grid().right - width, baseline, style, unit);
        bottom = baseline + points(1);
        baseline += pitch;
    }
    return bottom;
}

}  // namespace stave::card::layout
