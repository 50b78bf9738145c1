#include "compiler/fit/maxes.hpp"

#include <algorithm>

#include "compiler/civil/date_text.hpp"
#include "compiler/loads/equations.hpp"
#include "compiler/names/names.hpp"

namespace stave::fit {

namespace {

using program::Estimate;
using program::Test;

// A milligram; see targets.cpp.
constexpr std::int64_t finest = 1'000'000;
// A load of tons comes out right to a milligram by such shares.
constexpr std::int64_t finest_share = 1'000'000'000;

loads::Equation equation_of(Estimate estimate) {
    return static_cast<loads::Equation>(estimate);
}

// 1RM / load; nothing where the chart does not reach so far.
std::optional<Ratio> factor_of(Estimate estimate, std::int64_t reps) {
    if (estimate == Estimate::spread) {
        const auto factors = loads::max_factors(reps);
        return factors ? std::optional(factors->middle) : std::nullopt;
    }
    if (estimate != Estimate::chart) return loads::max_factor(equation_of(estimate), reps);
    const auto share = loads::chart_share(reps);
    return share ? std::optional(Ratio(1) / *share) : std::nullopt;
}

}  // namespace

bool Maxes::counts(const Test& test) const {
    return !day_ || std::chrono::sys_days(test.date) <= std::chrono::sys_days(*day_);
}

bool Maxes::is_of(const Test& test, const std::string& folded,
                  std::optional<std::uint32_t> definition) const {
    return test.folded_movement == folded || (definition && test.definition == definition);
}

std::optional<Max> Maxes::find(const std::string& name,
                               std::optional<std::uint32_t> definition) const {
    const std::string folded = fold_name(name);
    std::optional<Max> best;
    for (const Test& test : athlete_.tests) {
        if (!test.load || !counts(test) || !is_of(test, folded, definition)) continue;
        Max max = reckon(test);
        const bool is_better = !best || best->test.date < test.date ||
                               (best->test.date == test.date && best->kilograms < max.kilograms);
        if (is_better) best = std::move(max);
    }
    return best;
}

Max Maxes::reckon(const Test& test) const {
    const std::int64_t reps = test.amount.value.numerator();
    Max max;
    max.movement = test.movement;
    max.test = test;
    max.estimate = athlete_.estimate.value_or(Estimate::epley);
    // Longer sets than the chart knows are reckoned as where nothing is said.
    if (!factor_of(max.estimate, reps)) max.estimate = Estimate::epley;
    const Ratio load = in_base_units(*test.load);
    const auto times = [&](Ratio factor) { return rounded_product(load, factor, finest); };
    max.kilograms = times(*factor_of(max.estimate, reps));
    max.least = max.greatest = max.kilograms;
    if (max.estimate == Estimate::spread) {
        const auto factors = *loads::max_factors(reps);
        max.least = times(factors.least);
        max.greatest = times(factors.greatest);
    }
    return max;
}

const Test* Maxes::find_time(const std::string& name, std::optional<std::uint32_t> definition,
                             const Quantity& amount) const {
    const std::string folded = fold_name(name);
    const Test* best = nullptr;
    for (const Test& test : athlete_.tests) {
        const bool fits = test.time && counts(test) && is_of(test, folded, definition) &&
                          dimension(test.amount.unit) == Dimension::length &&
                          dimension(amount.unit) == Dimension::length &&
                          in_base_units(test.amount) == in_base_units(amount) &&
                          in_base_units(amount) > Ratio(0);
        if (fits && (best == nullptr || best->date < test.date)) best = &test;
    }
    return best;
}

bool Maxes::is_old(const Test& test) const {
    constexpr std::chrono::days longest{12 * 7};
    return day_ && std::chrono::sys_days(*day_) - std::chrono::sys_days(test.date) > longest;
}

std::string Maxes::related(const std::string& name, std::optional<std::uint32_t> definition) const {
    const std::string folded = fold_name(name);
    for (const Test& test : athlete_.tests) {
        if (test.load && !counts(test) && is_of(test, folded, definition))
            return " The test of " + civil::date_text(test.date) + " comes later.";
    }
    if (!definition) return "";
    const auto& patterns = program_.movements[*definition].patterns;
    if (patterns.empty()) return "";
    for (const Test& test : athlete_.tests) {
        if (!test.load || !counts(test) || !test.definition) continue;
        const auto& own = program_.movements[*test.definition].patterns;
        if (own.empty() || own.front() != patterns.front()) continue;
        return " The test of " + test.movement +
               " is of the same pattern; what it says of this movement would be a guess.";
    }
    return "";
}

std::string Maxes::when() const {
    return day_ ? "on or before " + civil::date_text(*day_) : "of it";
}

std::optional<Ratio> share_for_reps(Ratio reps, Estimate estimate) {
    const std::int64_t below = floor(reps);
    const auto first = factor_of(estimate, below);
    if (!first) return std::nullopt;
    const Ratio share = Ratio(1) / *first;
    if (reps.is_whole()) return rounded(share, finest_share);
    // Half a repetition lies half way between its neighbours, by our own choice.
    const auto second = factor_of(estimate, below + 1);
    if (!second) return std::nullopt;
    const Ratio next = rounded(Ratio(1) / *second, finest_share);
    const Ratio start = rounded(share, finest_share);
    return rounded(start + (next - start) * (reps - Ratio(below)), finest_share);
}

}  // namespace stave::fit
