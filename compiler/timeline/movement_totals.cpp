#include "compiler/timeline/movement_totals.hpp"

#include <algorithm>

namespace stave::timeline {

namespace {

using program::Amount;
using program::AmountForm;
using program::SideRule;

// Amounts are kept to a millionth of their unit.
constexpr std::int64_t per_unit = 1'000'000;

bool is_one_kind(Unit left, Unit right) {
    if (left == right) return true;
    return dimension(left) == dimension(right) && dimension(left) != Dimension::count;
}

MovementTotal& row_of(const program::Part& part, Unit unit, std::vector<MovementTotal>& totals) {
    const auto found = std::ranges::find_if(totals, [&](const MovementTotal& total) {
        return is_one_kind(total.unit, unit) && total.folded_name == part.folded_name;
    });
    if (found != totals.end()) return *found;
    MovementTotal& total = totals.emplace_back();
    total.name = part.name;
    total.folded_name = part.folded_name;
    total.unit = unit;
    return total;
}

// The amount in the row's unit: 400 m are 0.4 of a row in kilometres.
Ratio in_unit_of(const MovementTotal& total, Quantity amount) {
    if (amount.unit == total.unit) return rounded(amount.value, per_unit);
    return rounded(in_base_units(amount) / in_base_units({Ratio(1), total.unit}), per_unit);
}

// Alternating, the side that begins has the odd one.
Sided alternating(const program::Sides& sides, Ratio value, bool counts) {
    const Ratio half = value / Ratio(2);
    const Ratio more = counts ? Ratio(ceil(half)) : half;
    const Ratio less = value - more;
    if (sides.right_first) return {{}, less, more};
    return {{}, more, less};
}

Sided by_side(const DonePart& done, Ratio value, bool counts) {
    const program::Sides& sides = done.item.sides;
    // Neither hands that swap a load nor ways are a left and a right of the body.
    const bool has_sides = sides.rule != SideRule::swapped && sides.word != program::SideWord::way;
    if (has_sides && done.side == Side::left) return {{}, value, {}};
    if (has_sides && done.side == Side::right) return {{}, {}, value};
    if (has_sides && sides.rule == SideRule::alternating) return alternating(sides, value, counts);
    return {value, {}, {}};
}

// More than what is counted may be done.
bool is_open_upwards(AmountForm form) {
    return form == AmountForm::at_least || form == AmountForm::build_to ||
           form == AmountForm::open_ladder;
}

}  // namespace

void add_to_totals(const program::Program& program, const DonePart& done,
                   std::vector<MovementTotal>& totals, const AssumptionNote& note) {
    const Amount& amount = done.part.amounts[done.set];
    MovementTotal& total = row_of(done.part, amount.high.unit, totals);
    total.work_seconds += done.work_seconds;
    if (done.is_new_set) ++total.sets;
    if (done.block.run == program::RunKind::as_many) total.has_open_rounds = true;
    if (done.is_new_set && amount.form == AmountForm::max) ++total.open_sets;
    total.is_least = total.is_least || is_open_upwards(amount.form);
    const bool climbs = amount.form == AmountForm::open_ladder;
    const Quantity counted{climbs ? amount.low.value : amount.high.value, amount.high.unit};
    const std::int64_t directions = directions_of(program, done.part, counted.unit);
    if (directions > 1) note(AssumptionKind::several_directions);
    const Ratio value = in_unit_of(total, counted) * Ratio(directions);
    const Sided sided = by_side(done, value, dimension(counted.unit) == Dimension::count);
    total.both += sided.both;
    total.left += sided.left;
    total.right += sided.right;
    const std::vector<program::Load>& loads = done.item.loads;
    if (counted.unit != Unit::reps || loads.empty()) return;
    if (!add_set(loads[loads.size() == 1 ? 0 : done.set], sided, total.volume)) return;
    if (done.is_new_set) ++total.weighed_sets;
    if (loads.size() == 1 && done.item.find<program::LoadChange>() != nullptr) {
        note(AssumptionKind::one_load_counted);
    }
}

}  // namespace stave::timeline
