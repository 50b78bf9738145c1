// Exact numbers and units. Conversions against outside sources are in
// tests/published.
#include <gtest/gtest.h>

#include <cstdint>
#include <limits>
#include <stdexcept>
#include <tuple>

#include "compiler/quantity/quantity.hpp"

namespace stave::tests {
namespace {

TEST(Ratio, IsAlwaysInLowestTermsWithAPositiveDenominator) {
    const Ratio half(-3, -6);
    EXPECT_EQ(half.numerator(), 1);
    EXPECT_EQ(half.denominator(), 2);
    EXPECT_EQ(Ratio(3, -6), Ratio(-1, 2));
    EXPECT_EQ(Ratio(0, 5), Ratio(0));
}

TEST(Ratio, AddsMultipliesAndComparesExactly) {
    EXPECT_EQ(Ratio(1, 3) + Ratio(1, 6), Ratio(1, 2));
    EXPECT_EQ(Ratio(1, 3) - Ratio(1, 2), Ratio(-1, 6));
    EXPECT_EQ(Ratio(2, 3) * Ratio(9, 4), Ratio(3, 2));
    EXPECT_EQ(Ratio(2, 3) / Ratio(4, 9), Ratio(3, 2));
    EXPECT_LT(Ratio(1, 3), Ratio(34, 100));
    EXPECT_GT(Ratio(-1, 3), Ratio(-1, 2));
}

TEST(Ratio, ThrowsWhereAResultDoesNotExistOrDoesNotFit) {
    EXPECT_THROW(Ratio(1, 0), std::domain_error);
    EXPECT_THROW(Ratio(1) / Ratio(0), std::domain_error);
    const Ratio largest(std::numeric_limits<std::int64_t>::max());
    EXPECT_THROW(largest + Ratio(1), std::overflow_error);
    EXPECT_THROW(largest * Ratio(2), std::overflow_error);
}

TEST(Ratio, RoundsDownAndUpAlsoBelowZero) {
    EXPECT_EQ(floor(Ratio(7, 2)), 3);
    EXPECT_EQ(ceil(Ratio(7, 2)), 4);
    EXPECT_EQ(floor(Ratio(-7, 2)), -4);
    EXPECT_EQ(ceil(Ratio(-7, 2)), -3);
    EXPECT_EQ(floor(Ratio(4)), 4);
    EXPECT_EQ(ceil(Ratio(4)), 4);
}

TEST(Ratio, RoundsToAFractionHalvesUp) {
    EXPECT_EQ(rounded(Ratio(1, 3), 1000), Ratio(333, 1000));
    EXPECT_EQ(rounded(Ratio(1, 2000), 1000), Ratio(1, 1000));
    EXPECT_EQ(rounded(Ratio(3, 4), 1000), Ratio(3, 4));
    EXPECT_EQ(rounded(Ratio(-1, 3), 1000), Ratio(-333, 1000));
    // 2 x 10^12 / 10^8 times 8 x 10^10 / 10^6 leaves 64 bits on the way.
    EXPECT_EQ(rounded_product(Ratio(2'000'000'000'001, 100'000'000),
                              Ratio(86'399'999'999, 1'000'000), 1000),
              Ratio(1'727'999'999'981, 1000));
}

TEST(Ratio, PrintsAsADecimalWithoutTrailingNoughts) {
    EXPECT_EQ(to_decimal(Ratio(5, 2)), "2.5");
    EXPECT_EQ(to_decimal(Ratio(8)), "8");
    EXPECT_EQ(to_decimal(Ratio(1, 3), 2), "0.33");
    EXPECT_EQ(to_decimal(Ratio(2, 3), 2), "0.67");
    EXPECT_EQ(to_decimal(Ratio(1, 20), 2), "0.05");
    EXPECT_EQ(to_decimal(Ratio(999, 1000), 2), "1");
    EXPECT_EQ(to_decimal(Ratio(-5, 2)), "-2.5");
    EXPECT_EQ(to_decimal(Ratio(-1, 1000), 2), "0");
}

TEST(Units, AreFoundByEverySpellingInAnyLetterCase) {
    EXPECT_EQ(find_unit("kg"), Unit::kilogram);
    EXPECT_EQ(find_unit("KG"), Unit::kilogram);
    EXPECT_EQ(find_unit("Reps"), Unit::reps);
    EXPECT_EQ(find_unit("rep"), Unit::reps);
    EXPECT_EQ(find_unit("°"), Unit::degree);
    EXPECT_EQ(find_unit("lbs"), Unit::pound);
    EXPECT_EQ(find_unit("W"), Unit::watt);
    EXPECT_EQ(find_unit("mi"), std::nullopt);
    EXPECT_EQ(find_unit(""), std::nullopt);
    EXPECT_EQ(find_unit("a word longer than any unit"), std::nullopt);
}

TEST(Units, ConvertOnlyWithinADimensionAndNeverBetweenCounts) {
    EXPECT_EQ(convert({Ratio(90), Unit::second}, Unit::minute),
              (Quantity{Ratio(3, 2), Unit::minute}));
    EXPECT_THROW(std::ignore = convert({Ratio(1), Unit::kilogram}, Unit::metre), std::domain_error);
    EXPECT_THROW(std::ignore = convert({Ratio(1), Unit::steps}, Unit::reps), std::domain_error);
}

}  // namespace
}  // namespace stave::tests
