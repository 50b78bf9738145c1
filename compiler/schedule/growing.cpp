#include "compiler/schedule/growing.hpp"

#include <algorithm>
#include <functional>

#include "compiler/names/names.hpp"
#include "compiler/schedule/rounding.hpp"
#include "compiler/schedule/sets.hpp"

namespace stave::schedule {

namespace {

using program::AmountForm;
using program::Growth;
using program::GrowthOf;
using program::LoadKind;

// A value after so many steps.
Quantity grown(const Growth& growth, const Quantity& start, std::int64_t steps) {
    const bool same_unit = growth.step.unit == start.unit;
    Ratio step = growth.step.value;
    if (growth.is_share) {
        step = start.value * in_base_units(growth.step);
    } else if (!same_unit) {
        step = convert(growth.step, start.unit).value;
    }
    Quantity result{start.value + step * Ratio(steps), start.unit};
    if (steps > 0 && (growth.is_share || !same_unit)) result.value = rounded_amount(result);
    if (!growth.limit) return result;
    const Ratio limit = convert(*growth.limit, start.unit).value;
    result.value = std::max(std::min(result.value, limit), start.value);
    return result;
}

bool can_grow(const Growth& growth, const Quantity& value) {
    const Unit unit = growth.is_share && growth.limit ? growth.limit->unit : growth.step.unit;
    if (growth.is_share && !growth.limit) return true;
    const Dimension measured = dimension(unit);
    if (measured != dimension(value.unit)) return false;
    return measured != Dimension::count || unit == value.unit;
}

bool is_target(const Growth& growth, const program::Part& part) {
    if (growth.definition && part.definition) return *growth.definition == *part.definition;
    return part.folded_name == growth.folded_target;
}

bool is_target(const Growth& growth, const program::Block& block) {
    return !block.title.empty() && fold_name(block.title) == growth.folded_target;
}

// Warm-up and cool-down stay as they are.
bool grows(const program::Block& block) {
    return block.kind != program::BlockKind::warm_up && block.kind != program::BlockKind::cool_down;
}

using Change = std::function<void(Quantity&)>;

void change_ends(Quantity& low, Quantity& high, const Growth& growth, const Change& change) {
    if (!can_grow(growth, low)) return;
    const bool is_one = low == high;
    change(low);
    if (is_one) {
        high = low;
    } else {
        change(high);
    }
}

void change_load(program::LoadTerm& term, const Growth& growth, const Change& change) {
    const LoadKind share = LoadKind::share_of_max;
    if (growth.of == GrowthOf::share_of_max) {
        if (term.kind == share) change_ends(term.low, term.high, growth, change);
        return;
    }
    if (term.kind == LoadKind::mass || term.kind == LoadKind::power)
        return change_ends(term.low, term.high, growth, change);
    for (program::Shift& shift : term.shift) {
        const bool is_mass = dimension(shift.amount.unit) == Dimension::mass;
        if (!shift.minus && is_mass && can_grow(growth, shift.amount)) change(shift.amount);
    }
}

// Amounts that say how much; not those that leave it open, nor sums of pieces.
bool has_number(const program::Amount& amount) {
    switch (amount.form) {
        case AmountForm::exact:
        case AmountForm::range:
        case AmountForm::at_least:
        case AmountForm::total:
            return true;
        default:
            return false;
    }
}

void change_item(program::Item& item, const Growth& growth, const Change& change) {
    for (program::Part& part : item.parts) {
        if (!is_target(growth, part)) continue;
        if (growth.of == GrowthOf::amount && item.find<program::Pieces>() == nullptr) {
            for (program::Amount& amount : part.amounts) {
                if (has_number(amount)) change_ends(amount.low, amount.high, growth, change);
            }
        }
        const bool is_load = growth.of == GrowthOf::load || growth.of == GrowthOf::share_of_max;
        if (!is_load) continue;
        for (program::Load& load : item.loads) {
            for (program::LoadTerm& term : load.terms)
                change_load(term, growth, change);
        }
        // Joined movements share their load.
        break;
    }
    for (program::Substitute& substitute : item.substitutes)
        change_item(substitute.item, growth, change);
}

// Every value that the growth changes, in order; sets and rounds are no values.
void change_values(program::Session& session, const Growth& growth, const Change& change) {
    for (program::Block& block : session.blocks) {
        if (!grows(block)) continue;
        const bool has_time = block.run == program::RunKind::as_many;
        if (growth.of == GrowthOf::amount && has_time && is_target(growth, block) &&
            can_grow(growth, block.time)) {
            change(block.time);
        }
        for (program::Item& item : block.items)
            change_item(item, growth, change);
    }
}

bool has_sets(const Growth& growth, const program::Block& block, const program::Item& item) {
    return growth.of == GrowthOf::sets && grows(block) && !block.by_rounds &&
           std::ranges::any_of(item.parts,
                               [&](const program::Part& part) { return is_target(growth, part); });
}

bool has_rounds(const Growth& growth, const program::Block& block) {
    return growth.of == GrowthOf::rounds && grows(block) && block.by_rounds &&
           block.run != program::RunKind::as_many && is_target(growth, block);
}

std::int64_t grown_count(const Growth& growth, std::int64_t count, std::int64_t steps) {
    return grown(growth, {Ratio(count), Unit::reps}, steps).value.numerator();
}

}  // namespace

std::vector<Quantity> grown_values(const program::Session& session, const Growth& growth,
                                   std::int64_t steps) {
    std::vector<Quantity> values;
    if (growth.of == GrowthOf::sets || growth.of == GrowthOf::rounds) {
        for (const program::Block& block : session.blocks) {
            if (has_rounds(growth, block))
                values.push_back({Ratio(grown_count(growth, block.rounds, steps)), Unit::reps});
            for (const program::Item& item : block.items) {
                if (!has_sets(growth, block, item)) continue;
                const auto sets = static_cast<std::int64_t>(item.set_count());
                values.push_back({Ratio(grown_count(growth, sets, steps)), Unit::reps});
            }
        }
        return values;
    }
    program::Session copy = session;
    change_values(copy, growth,
                  [&](Quantity& value) { values.push_back(grown(growth, value, steps)); });
    return values;
}

void grow(program::Session& session, const Growth& growth, std::int64_t steps) {
    if (steps == 0) return;
    if (growth.of != GrowthOf::sets && growth.of != GrowthOf::rounds) {
        return change_values(session, growth, [&](Quantity& value) {
            const Quantity after = grown(growth, value, steps);
            if (!is_beyond(growth, after)) value = after;
        });
    }
    for (program::Block& block : session.blocks) {
        if (has_rounds(growth, block)) {
            const std::int64_t rounds = grown_count(growth, block.rounds, steps);
            if (!is_beyond(growth, {Ratio(rounds), Unit::reps})) set_rounds(block, rounds);
        }
        for (program::Item& item : block.items) {
            if (!has_sets(growth, block, item)) continue;
            const std::int64_t sets =
                grown_count(growth, static_cast<std::int64_t>(item.set_count()), steps);
            if (!is_beyond(growth, {Ratio(sets), Unit::reps}))
                set_sets(item, static_cast<std::size_t>(sets));
        }
    }
}

bool is_beyond(const Growth& growth, const Quantity& value) {
    constexpr std::int64_t heaviest_kg = 2000;
    constexpr std::int64_t most_watts = 10'000;
    constexpr std::int64_t most_counted = 100'000;
    constexpr std::int64_t longest_seconds = 24LL * 3600;
    constexpr std::int64_t most_sets = 100;
    if (growth.of == GrowthOf::sets || growth.of == GrowthOf::rounds)
        return value.value > Ratio(most_sets);
    switch (dimension(value.unit)) {
        case Dimension::mass:
            return in_base_units(value) > Ratio(heaviest_kg);
        case Dimension::power:
            return in_base_units(value) > Ratio(most_watts);
        case Dimension::share:
            return in_base_units(value) > Ratio(1);
        case Dimension::time:
            return in_base_units(value) > Ratio(longest_seconds);
        default:
            return value.value > Ratio(most_counted);
    }
}

}  // namespace stave::schedule
