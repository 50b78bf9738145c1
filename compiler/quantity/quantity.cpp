#include "compiler/quantity/quantity.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace stave {

namespace {

struct UnitEntry {
    Dimension dimension;
    std::string_view singular;
    std::string_view plural;
    std::int64_t numerator;
    std::int64_t denominator;
};

constexpr std::array unit_table{
#define STAVE_UNIT(id, dimension, singular, plural, numerator, denominator) \
    UnitEntry{Dimension::dimension, singular, plural, numerator, denominator},
#include "grammar/keywords.def"
};

struct Spelling {
    std::string_view word;
    Unit unit;
};

constexpr char folded(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

constexpr bool folded_less(std::string_view left, std::string_view right) {
    return std::ranges::lexicographical_compare(left, right, {}, folded, folded);
}

// Main spellings and variants, sorted without letter case for look-up.
constexpr auto spellings = [] {
    std::array table{
#define STAVE_UNIT(id, dimension, singular, plural, numerator, denominator) \
    Spelling{singular, Unit::id}, Spelling{plural, Unit::id},
#define STAVE_UNIT_SPELLING(id, word) Spelling{word, Unit::id},
#include "grammar/keywords.def"
    };
    std::ranges::sort(table, folded_less, &Spelling::word);
    return table;
}();

const UnitEntry& entry(Unit unit) {
    return unit_table[static_cast<std::size_t>(unit)];
}

}  // namespace

Dimension dimension(Unit unit) {
    return entry(unit).dimension;
}

std::string_view dimension_name(Dimension dimension) {
    switch (dimension) {
        case Dimension::count:
            return "a count";
        case Dimension::time:
            return "a time";
        case Dimension::length:
            return "a distance";
        case Dimension::mass:
            return "a load";
        case Dimension::angle:
            return "an angle";
        case Dimension::energy:
            return "an energy";
        case Dimension::power:
            return "a power";
        case Dimension::share:
            return "a share";
    }
    return "";
}

std::string_view singular(Unit unit) {
    return entry(unit).singular;
}

std::string_view plural(Unit unit) {
    return entry(unit).plural;
}

std::optional<Unit> find_unit(std::string_view word) {
    const auto* const found =
        std::ranges::lower_bound(spellings, word, folded_less, &Spelling::word);
    if (found == spellings.end() || folded_less(word, found->word)) return std::nullopt;
    return found->unit;
}

Ratio in_base_units(Quantity quantity) {
    const UnitEntry& unit = entry(quantity.unit);
    return quantity.value * Ratio(unit.numerator, unit.denominator);
}

Quantity convert(Quantity quantity, Unit unit) {
    if (quantity.unit == unit) return quantity;
    const bool counts = dimension(unit) == Dimension::count;
    if (counts || dimension(quantity.unit) != dimension(unit)) {
        throw std::domain_error("units of different dimensions");
    }
    const UnitEntry& target = entry(unit);
    return {in_base_units(quantity) / Ratio(target.numerator, target.denominator), unit};
}

}  // namespace stave
