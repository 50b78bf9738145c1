#include "compiler/fit/racks.hpp"

#include <algorithm>
#include <utility>

#include "compiler/names/things.hpp"

namespace stave::fit {

namespace {

constexpr std::int64_t kilogram_tenths = 10;

std::vector<loads::Weight> to_weights(const std::vector<Stock>& stocks) {
    std::vector<loads::Weight> weights;
    for (const Stock& stock : stocks)
        weights.push_back({in_base_units(stock.mass), stock.count});
    return weights;
}

std::vector<Quantity> masses_of(const std::vector<Stock>& stocks) {
    std::vector<Quantity> masses;
    for (const Stock& stock : stocks)
        masses.push_back(stock.mass);
    return masses;
}

// Their sum in their own unit; where they are of several, in the unit that is asked for, to a
// tenth.
Quantity sum(const std::vector<Quantity>& masses, Unit unit) {
    const bool is_one = std::ranges::all_of(
        masses, [&](const Quantity& one) { return one.unit == masses.front().unit; });
    if (is_one && !masses.empty()) unit = masses.front().unit;
    Ratio total(0);
    for (const Quantity& one : masses)
        total += is_one ? one.value : rounded(convert(one, unit).value, 1'000'000);
    return {is_one ? total : rounded(total, kilogram_tenths), unit};
}

// Where nobody knows what is there: 2.5 kg or 5 lb (common practice, no source).
Quantity usual_step(Unit unit) {
    return unit == Unit::pound ? Quantity{Ratio(5), unit} : Quantity{Ratio(5, 2), unit};
}

Made round_to_step(Quantity target, Unit unit, program::Rounding rounding) {
    const Quantity step = usual_step(unit);
    const Ratio steps = rounded(convert(target, unit).value, 1'000'000) / step.value;
    std::int64_t count = floor(steps);
    const Ratio over = steps - Ratio(count);
    const bool goes_up = rounding == program::Rounding::up
                             ? over > Ratio(0)
                             : rounding == program::Rounding::nearest && over > Ratio(1, 2);
    count = std::max<std::int64_t>(count + (goes_up ? 1 : 0), 1);
    Made made;
    made.mass = {step.value * Ratio(count), unit};
    made.step = step;
    return made;
}

loads::Direction direction_of(program::Rounding rounding) {
    switch (rounding) {
        case program::Rounding::down:
            return loads::Direction::down;
        case program::Rounding::up:
            return loads::Direction::up;
        case program::Rounding::nearest:
            break;
    }
    return loads::Direction::nearest;
}

}  // namespace

Racks::Racks(const std::vector<program::KitThing>& kit, Unit unit) : unit_(unit) {
    const Inventory inventory = take_stock(kit);
    for (const Bar& bar : inventory.bars) {
        Rack rack;
        rack.folded_name = bar.folded_name;
        rack.bar = inventory.collars.value == Ratio(0) ? bar.mass
                                                       : sum({bar.mass, inventory.collars}, unit);
        rack.weights = masses_of(inventory.plates);
        rack.reachable =
            loads::ReachableLoads::of_bar(in_base_units(*rack.bar), to_weights(inventory.plates));
        racks_.push_back(std::move(rack));
    }
    for (const Implements& implements : inventory.implements) {
        for (const std::int64_t at_once : {1, 2}) {
            Rack rack;
            rack.folded_name = implements.folded_name;
            rack.implements = at_once;
            rack.weights = masses_of(implements.stocks);
            rack.reachable =
                loads::ReachableLoads::of_things(to_weights(implements.stocks), at_once);
            if (rack.reachable.size() > 0) racks_.push_back(std::move(rack));
        }
    }
}

const Racks::Rack* Racks::find(const std::string& folded_name,
                               const std::vector<std::vector<std::string>>& needs,
                               std::int64_t implements) const {
    const auto serves = [&](const Rack& rack) {
        return rack.bar ? implements == 1 : rack.implements == implements;
    };
    for (const auto& choices : needs) {
        for (const std::string& choice : choices) {
            for (const Rack& rack : racks_) {
                if (serves(rack) && is_called(rack.folded_name, choice)) return &rack;
            }
        }
    }
    // "backpack squat" is done with the backpack.
    for (const Rack& rack : racks_) {
        if (serves(rack) && folded_name.starts_with(rack.folded_name + ' ')) return &rack;
    }
    return nullptr;
}

bool Racks::is_cut() const {
    return std::ranges::any_of(racks_, [](const Rack& rack) { return rack.reachable.is_cut(); });
}

Quantity Racks::mass_of(const Rack& rack, const std::vector<std::size_t>& ids) const {
    if (!rack.bar) return rack.weights[ids.front()];
    std::vector<Quantity> masses{*rack.bar};
    for (const std::size_t id : ids) {
        masses.push_back(rack.weights[id]);
        masses.push_back(rack.weights[id]);
    }
    return sum(masses, unit_);
}

Made Racks::round(const std::string& folded_name,
                  const std::vector<std::vector<std::string>>& needs, std::int64_t implements,
                  Quantity target, program::Rounding rounding) const {
    const Rack* rack = find(folded_name, needs, implements);
    if (rack == nullptr) return round_to_step(target, unit_, rounding);
    const auto choice = rack->reachable.choose(in_base_units(target), direction_of(rounding));
    if (!choice) return round_to_step(target, unit_, rounding);
    Made made;
    made.mass = mass_of(*rack, choice->ids);
    if (choice->below) made.below = mass_of(*rack, *choice->below);
    if (choice->above) made.above = mass_of(*rack, *choice->above);
    if (!rack->bar) return made;
    made.bar = rack->bar;
    for (const std::size_t id : choice->ids)
        made.plates.push_back(rack->weights[id]);
    return made;
}

}  // namespace stave::fit
