#include "compiler/quantity/ratio.hpp"

#include <cstdint>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace stave {

namespace {

__extension__ using Wide = __int128;

// Numbers of 128 bits are divided by a function; most are small.
Wide wide_gcd(Wide first, Wide second) {
    constexpr Wide most = std::numeric_limits<std::uint64_t>::max();
    if (first < 0) first = -first;
    while (second != 0 && (first > most || second > most)) {
        const Wide rest = first % second;
        first = second;
        second = rest;
    }
    if (second == 0) return first;
    return std::gcd(static_cast<std::uint64_t>(first), static_cast<std::uint64_t>(second));
}

Wide divided(Wide value, Wide divisor) {
    return divisor == 1 ? value : value / divisor;
}

std::int64_t narrow(Wide value) {
    if (value > std::numeric_limits<std::int64_t>::max() ||
        value < std::numeric_limits<std::int64_t>::min()) {
        throw std::overflow_error("ratio does not fit 64 bits");
    }
    return static_cast<std::int64_t>(value);
}

}  // namespace

Ratio::Ratio(std::int64_t numerator, std::int64_t denominator) {
    if (denominator == 0) throw std::domain_error("ratio with denominator 0");
    if (denominator == 1) {
        numerator_ = numerator;
        return;
    }
    Wide top = numerator;
    Wide bottom = denominator;
    if (bottom < 0) {
        top = -top;
        bottom = -bottom;
    }
    const Wide divisor = wide_gcd(top, bottom);
    numerator_ = narrow(divided(top, divisor));
    denominator_ = narrow(divided(bottom, divisor));
}

static Ratio reduced(Wide top, Wide bottom) {
    if (bottom < 0) {
        top = -top;
        bottom = -bottom;
    }
    const Wide divisor = wide_gcd(top, bottom);
    return {narrow(divided(top, divisor)), narrow(divided(bottom, divisor))};
}

Ratio operator+(Ratio left, Ratio right) {
    if (left.denominator_ == 1 && right.denominator_ == 1) {
        return {narrow(Wide{left.numerator_} + right.numerator_)};
    }
    return reduced(
        Wide{left.numerator_} * right.denominator_ + Wide{right.numerator_} * left.denominator_,
        Wide{left.denominator_} * right.denominator_);
}

Ratio operator-(Ratio left, Ratio right) {
    return left + Ratio(narrow(-Wide{right.numerator_}), right.denominator_);
}

Ratio operator*(Ratio left, Ratio right) {
    if (left.denominator_ == 1 && right.denominator_ == 1) {
        return {narrow(Wide{left.numerator_} * right.numerator_)};
    }
    return reduced(Wide{left.numerator_} * right.numerator_,
                   Wide{left.denominator_} * right.denominator_);
}

Ratio operator/(Ratio left, Ratio right) {
    if (right.numerator_ == 0) throw std::domain_error("division by 0");
    return reduced(Wide{left.numerator_} * right.denominator_,
                   Wide{left.denominator_} * right.numerator_);
}

std::strong_ordering operator<=>(Ratio left, Ratio right) {
    const Wide first = Wide{left.numerator_} * right.denominator_;
    const Wide second = Wide{right.numerator_} * left.denominator_;
    if (first < second) return std::strong_ordering::less;
    if (first > second) return std::strong_ordering::greater;
    return std::strong_ordering::equal;
}

std::int64_t floor(Ratio value) {
    const std::int64_t quotient = value.numerator() / value.denominator();
    const bool below = value.numerator() % value.denominator() < 0;
    return below ? quotient - 1 : quotient;
}

std::int64_t ceil(Ratio value) {
    const std::int64_t quotient = value.numerator() / value.denominator();
    const bool above = value.numerator() % value.denominator() > 0;
    return above ? quotient + 1 : quotient;
}

static Wide floor_divide(Wide top, Wide bottom) {
    const Wide quotient = top / bottom;
    return top % bottom < 0 ? quotient - 1 : quotient;
}

static Ratio rounded_fraction(Wide top, Wide bottom, std::int64_t denominator) {
    return {narrow(floor_divide(top * denominator * 2 + bottom, bottom * 2)), denominator};
}

Ratio rounded(Ratio value, std::int64_t denominator) {
    if (denominator % value.denominator() == 0) return value;
    return rounded_fraction(value.numerator(), value.denominator(), denominator);
}

Ratio rounded_product(Ratio left, Ratio right, std::int64_t denominator) {
    return rounded_fraction(Wide{left.numerator()} * right.numerator(),
                            Wide{left.denominator()} * right.denominator(), denominator);
}

std::string to_decimal(Ratio value, int places) {
    std::int64_t scale = 1;
    for (int place = 0; place < places; ++place)
        scale *= 10;
    const bool negative = value.numerator() < 0;
    const Ratio size = negative ? Ratio(0) - value : value;
    const std::int64_t scaled = floor(size * Ratio(scale) + Ratio(1, 2));
    std::string text = std::to_string(scaled / scale);
    if (const std::int64_t fraction = scaled % scale; fraction != 0) {
        std::string digits = std::to_string(fraction);
        digits.insert(0, static_cast<std::size_t>(places) - digits.size(), '0');
        while (digits.back() == '0')
            digits.pop_back();
        text += '.' + digits;
    }
    return negative && scaled != 0 ? '-' + text : text;
}

}  // namespace stave
