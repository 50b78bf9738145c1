// Conversions, held against GNU units (https://www.gnu.org/software/units/), which
// takes its factors from NIST SP 811 and NIST Handbook 44, and against factors
// that NIST SP 811 itself prints.

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

#include "compiler/quantity/quantity.hpp"

namespace stave {
namespace {

// Our units as GNU units calls them.
struct Named {
    Unit unit;
    std::string_view name;
};
constexpr Named measured[] = {
    {Unit::second, "second"}, {Unit::minute, "minute"},   {Unit::hour, "hour"},
    {Unit::metre, "metre"},   {Unit::kilometre, "km"},    {Unit::centimetre, "cm"},
    {Unit::foot, "ft"},       {Unit::inch, "inch"},       {Unit::yard, "yard"},
    {Unit::mile, "mile"},     {Unit::kilogram, "kg"},     {Unit::pound, "lb"},
    {Unit::stone, "stone"},   {Unit::degree, "degree"},   {Unit::kilocalorie, "kcal"},
    {Unit::watt, "watt"},     {Unit::percent, "percent"},
};

// What GNU units prints with 15 digits.
std::string gnu_units(std::string_view have, std::string_view want) {
    const std::string command = "units --terse --output-format %.15g '" + std::string(have) +
                                "' '" + std::string(want) + "' 2>&1";
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(::popen(command.c_str(), "r"), ::pclose);
    std::array<char, 256> line{};
    if (!pipe || std::fgets(line.data(), line.size(), pipe.get()) == nullptr) return "";
    std::string told(line.data());
    while (told.ends_with('\n'))
        told.pop_back();
    return told;
}

double ours(Ratio value, Unit from, Unit to) {
    const Ratio exact = convert({value, from}, to).value;
    return static_cast<double>(exact.numerator()) / static_cast<double>(exact.denominator());
}

TEST(Conversion, between_all_units_of_a_dimension_agrees_with_gnu_units) {
    int pairs = 0;
    for (const Named& from : measured) {
        for (const Named& to : measured) {
            if (dimension(from.unit) != dimension(to.unit)) continue;
            const std::string told = gnu_units(from.name, to.name);
            ASSERT_FALSE(told.empty()) << "GNU units is not installed";
            const double theirs = std::stod(told);
            const double own = ours(Ratio(1), from.unit, to.unit);
            // 15 digits are shown.
            EXPECT_NEAR(own / theirs, 1.0, 1e-14) << from.name << " to " << to.name << ": " << told;
            ++pairs;
        }
    }
    // Times 3, lengths 7, masses 3, one each of angle, energy, power and share.
    EXPECT_EQ(pairs, 9 + 49 + 9 + 4);
}

TEST(Conversion, to_the_base_unit_of_energy_and_power_agrees_with_gnu_units) {
    EXPECT_EQ(gnu_units("kcal", "joule"), "4184");
    EXPECT_EQ(in_base_units({Ratio(1), Unit::kilocalorie}), Ratio(4184));
    EXPECT_EQ(gnu_units("watt", "joule/second"), "1");
    EXPECT_EQ(in_base_units({Ratio(1), Unit::watt}), Ratio(1));
}

TEST(Conversion, of_everyday_loads_and_distances_agrees_with_gnu_units) {
    struct Case {
        std::string_view have;
        std::string_view want;
        Quantity quantity;
        Unit unit;
    };
    const Case cases[] = {
        {"225 lb", "kg", {Ratio(225), Unit::pound}, Unit::kilogram},
        {"45 lb", "kg", {Ratio(45), Unit::pound}, Unit::kilogram},
        {"20 kg", "lb", {Ratio(20), Unit::kilogram}, Unit::pound},
        {"100 kg", "lb", {Ratio(100), Unit::kilogram}, Unit::pound},
        {"2.5 lb", "kg", {Ratio(5, 2), Unit::pound}, Unit::kilogram},
        {"1.25 kg", "lb", {Ratio(5, 4), Unit::kilogram}, Unit::pound},
        {"53 lb", "kg", {Ratio(53), Unit::pound}, Unit::kilogram},
        {"11.5 stone", "kg", {Ratio(23, 2), Unit::stone}, Unit::kilogram},
        {"50 ft", "m", {Ratio(50), Unit::foot}, Unit::metre},
        {"0.5 mile", "m", {Ratio(1, 2), Unit::mile}, Unit::metre},
        {"24 inch", "cm", {Ratio(24), Unit::inch}, Unit::centimetre},
        {"1.5 hour", "minute", {Ratio(3, 2), Unit::hour}, Unit::minute},
    };
    for (const Case& c : cases) {
        const double theirs = std::stod(gnu_units(c.have, c.want));
        EXPECT_NEAR(ours(c.quantity.value, c.quantity.unit, c.unit) / theirs, 1.0, 1e-14) << c.have;
    }
}

TEST(Conversion, of_a_body_weight_into_stones_and_pounds_agrees_with_gnu_units) {
    // A sum unit: whole stones, then the rest in pounds.
    EXPECT_EQ(gnu_units("150 lb", "stone;lb"), "10;10");
    const Ratio stones = convert({Ratio(150), Unit::pound}, Unit::stone).value;
    EXPECT_EQ(floor(stones), 10);
    const Quantity rest{stones - Ratio(10), Unit::stone};
    EXPECT_EQ(convert(rest, Unit::pound).value, Ratio(10));
}

TEST(Conversion, has_the_exact_factors_of_nist_sp_811) {
    // NIST SP 811 (2008), appendix B.8, factors in bold type, which are exact:
    // pound (avoirdupois) to kilogram.
    EXPECT_EQ(in_base_units({Ratio(1), Unit::pound}), Ratio(45359237, 100000000));
    // foot, inch, yard and mile to metre.
    EXPECT_EQ(in_base_units({Ratio(1), Unit::foot}), Ratio(3048, 10000));
    EXPECT_EQ(in_base_units({Ratio(1), Unit::inch}), Ratio(254, 10000));
    EXPECT_EQ(in_base_units({Ratio(1), Unit::yard}), Ratio(9144, 10000));
    EXPECT_EQ(in_base_units({Ratio(1), Unit::mile}), Ratio(1609344, 1000));
    // kilocalorie (thermochemical) to joule.
    EXPECT_EQ(in_base_units({Ratio(1), Unit::kilocalorie}), Ratio(4184));
    // Same table, derived: one stone is 14 lb, 6.350 293 18 kg.
    EXPECT_EQ(in_base_units({Ratio(1), Unit::stone}), Ratio(14) * Ratio(45359237, 100000000));
    // Table 6, units accepted for use with the SI: minute and hour.
    EXPECT_EQ(in_base_units({Ratio(1), Unit::minute}), Ratio(60));
    EXPECT_EQ(in_base_units({Ratio(1), Unit::hour}), Ratio(3600));
}

TEST(Conversion, of_printed_examples_is_exact) {
    // Pure arithmetic on the exact pound of NIST SP 811.
    EXPECT_EQ(convert({Ratio(225), Unit::pound}, Unit::kilogram).value,
              Ratio(10205828325, 100000000));
    EXPECT_EQ(to_decimal(convert({Ratio(45), Unit::pound}, Unit::kilogram).value, 8),
              "20.41165665");
}

TEST(Conversion, there_and_back_gives_the_value_itself) {
    for (const Named& from : measured) {
        for (const Named& to : measured) {
            if (dimension(from.unit) != dimension(to.unit)) continue;
            for (const Ratio value : {Ratio(1), Ratio(5, 2), Ratio(1, 3), Ratio(405, 4)}) {
                const Quantity there = convert({value, from.unit}, to.unit);
                EXPECT_EQ(convert(there, from.unit).value, value) << from.name << " " << to.name;
            }
        }
    }
}

TEST(Conversion, is_refused_between_dimensions_and_between_counts) {
    EXPECT_THROW(static_cast<void>(convert({Ratio(1), Unit::pound}, Unit::metre)),
                 std::domain_error);
    EXPECT_THROW(static_cast<void>(convert({Ratio(1), Unit::reps}, Unit::steps)),
                 std::domain_error);
}

}  // namespace
}  // namespace stave
