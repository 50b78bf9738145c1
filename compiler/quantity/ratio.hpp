// Exact rational numbers for doses, loads and durations.
//
// A Ratio is always in lowest terms with a positive denominator, so equal
// values compare equal member by member. Numbers that a coach types are bounded
// by the parser (compiler/syntax/numbers.hpp, compiler/check/check.hpp); with those bounds no
// operation below can leave 64 bits, and one that would is a bug and throws std::overflow_error.
#pragma once

#include <compare>
#include <cstdint>
#include <string>

namespace stave {

class Ratio {
public:
    constexpr Ratio() = default;
    // Not explicit: every whole number is a ratio.
    // NOLINTNEXTLINE(google-explicit-constructor): the conversion is meant
    constexpr Ratio(std::int64_t whole) : numerator_(whole) {}
    // Throws std::domain_error where denominator is 0.
    Ratio(std::int64_t numerator, std::int64_t denominator);

    [[nodiscard]] constexpr std::int64_t numerator() const { return numerator_; }
    [[nodiscard]] constexpr std::int64_t denominator() const { return denominator_; }
    [[nodiscard]] constexpr bool is_whole() const { return denominator_ == 1; }

    friend Ratio operator+(Ratio left, Ratio right);
    friend Ratio operator-(Ratio left, Ratio right);
    friend Ratio operator*(Ratio left, Ratio right);
    // Throws std::domain_error where right is 0.
    friend Ratio operator/(Ratio left, Ratio right);
    Ratio& operator+=(Ratio right) { return *this = *this + right; }

    friend constexpr bool operator==(Ratio, Ratio) = default;
    friend std::strong_ordering operator<=>(Ratio left, Ratio right);

private:
    std::int64_t numerator_ = 0;
    std::int64_t denominator_ = 1;
};

// Largest whole number <= value, smallest whole number >= value.
[[nodiscard]] std::int64_t floor(Ratio value);
[[nodiscard]] std::int64_t ceil(Ratio value);

// The nearest multiple of 1/denominator, halves up; denominator >= 1. Sums of many
// rounded values stay inside 64 bits where sums of arbitrary fractions do not.
[[nodiscard]] Ratio rounded(Ratio value, std::int64_t denominator);
// left x right, rounded like that, also where the exact product has no room.
[[nodiscard]] Ratio rounded_product(Ratio left, Ratio right, std::int64_t denominator);

// Decimal text with at most `places` digits behind the point, rounded half up,
// without trailing noughts: 5/2 -> "2.5", 1/3 with 2 places -> "0.33", 8 -> "8".
[[nodiscard]] std::string to_decimal(Ratio value, int places = 3);

}  // namespace stave
