// Amounts with their unit as written, and exact conversion between units.
//
// The unit table is grammar/keywords.def; its factors are exact (NIST SP 811,
// appendix B: 1 lb = 0.45359237 kg, 1 ft = 0.3048 m, 1 mile = 1609.344 m).
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "compiler/quantity/ratio.hpp"

namespace stave {

enum class Dimension : std::uint8_t { count, time, length, mass, angle, energy, power, share };

enum class Unit : std::uint8_t {
#define STAVE_UNIT(id, dimension, singular, plural, numerator, denominator) id,
#include "grammar/keywords.def"
};

[[nodiscard]] Dimension dimension(Unit unit);

// What a person would call the dimension: "a load", "a time" ...
[[nodiscard]] std::string_view dimension_name(Dimension dimension);

// The main spelling, as format writes it: "rep", "reps", "s", "mile", "miles".
[[nodiscard]] std::string_view singular(Unit unit);
[[nodiscard]] std::string_view plural(Unit unit);

// The unit a word stands for in any letter case ("KG", "Reps"); nothing for a word
// that is no unit.
[[nodiscard]] std::optional<Unit> find_unit(std::string_view word);

// A value in the unit in which it was written.
struct Quantity {
    Ratio value;
    Unit unit = Unit::reps;

    friend bool operator==(const Quantity&, const Quantity&) = default;
};

// The same amount in another unit of the same dimension, exactly. Counts do not
// convert into one another. Throws std::domain_error where dimensions differ.
[[nodiscard]] Quantity convert(Quantity quantity, Unit unit);

// In base units: seconds, metres, kilograms, degrees, joules, watts, shares of 1.
[[nodiscard]] Ratio in_base_units(Quantity quantity);

}  // namespace stave
