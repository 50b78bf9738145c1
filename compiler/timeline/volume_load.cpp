#include "compiler/timeline/volume_load.hpp"

#include <algorithm>

namespace stave::timeline {

namespace {

using program::LoadKind;
using program::LoadTerm;

// A pound's kilograms are exact to the eighth decimal.
constexpr std::int64_t precision = 100'000'000;
// To which quotients are rounded.
constexpr std::int64_t per_kilogram = 1'000'000;

// What the term weighs, all its implements together; nothing where it has no weight.
std::optional<Quantity> weight_of(const LoadTerm& term) {
    if (term.kind == LoadKind::mass) {
        return Quantity{Ratio(term.implements) * term.high.value, term.high.unit};
    }
    if (term.kind != LoadKind::bodyweight || term.shift.empty()) return std::nullopt;
    const program::Shift& shift = term.shift.front();
    // A machine or a band that carries a part of the body is no load.
    const bool is_hung = !shift.minus && dimension(shift.amount.unit) == Dimension::mass;
    return is_hung ? std::optional(shift.amount) : std::nullopt;
}

// Adds left x right.
void add_product(Ratio& total, Ratio left, Ratio right) {
    constexpr std::int64_t much_for_a_set = 1'000'000;
    constexpr std::int64_t much_in_all = 1'000'000'000;
    const bool much =
        rounded_product(left, right, 1) > Ratio(much_for_a_set) || total > Ratio(much_in_all);
    const std::int64_t kept = much ? 1 : precision;
    total = rounded(total, kept) + rounded_product(left, right, kept);
}

void add_as_written(Quantity weight, Ratio reps, std::vector<Quantity>& sums) {
    auto found = std::ranges::find(sums, weight.unit, &Quantity::unit);
    if (found == sums.end()) found = sums.insert(sums.end(), {Ratio(0), weight.unit});
    add_product(found->value, reps, weight.value);
}

}  // namespace

bool add_set(const program::Load& load, const Sided& reps, VolumeLoad& sum) {
    Ratio kilograms;
    const Ratio all = reps.all();
    for (const LoadTerm& term : load.terms) {
        const auto weight = weight_of(term);
        if (!weight) continue;
        kilograms += rounded(in_base_units(*weight), precision);
        add_as_written(*weight, all, sum.as_written);
    }
    if (kilograms == Ratio(0)) return false;
    add_product(sum.kilograms.both, reps.both, kilograms);
    add_product(sum.kilograms.left, reps.left, kilograms);
    add_product(sum.kilograms.right, reps.right, kilograms);
    sum.reps += all;
    return true;
}

void add(const VolumeLoad& more, VolumeLoad& sum) {
    for (const Quantity& moved : more.as_written)
        add_as_written(moved, Ratio(1), sum.as_written);
    add_product(sum.kilograms.both, Ratio(1), more.kilograms.both);
    add_product(sum.kilograms.left, Ratio(1), more.kilograms.left);
    add_product(sum.kilograms.right, Ratio(1), more.kilograms.right);
    sum.reps += more.reps;
}

std::optional<Ratio> mean_load(const VolumeLoad& volume) {
    if (volume.reps == Ratio(0)) return std::nullopt;
    return rounded_product(volume.kilograms.all(), Ratio(1) / volume.reps, per_kilogram);
}

Ratio density(const VolumeLoad& volume, std::int64_t minutes) {
    return rounded_product(volume.kilograms.all(), Ratio(1, minutes), per_kilogram);
}

}  // namespace stave::timeline
