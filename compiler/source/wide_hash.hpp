// A hash of values so wide that two different ones do not meet by chance: what is known by it need
// not be compared. It is no protection against people who mean harm.
#pragma once

#include <cstdint>
#include <string_view>

namespace stave {

struct WideHash {
    std::uint64_t high = 0;
    std::uint64_t low = 0;

    friend constexpr auto operator<=>(const WideHash&, const WideHash&) = default;
};

// FNV-1a, 128 bits (Fowler, Noll and Vo; constants from their description). The same on every
// machine.
class WideHasher {
public:
    constexpr void add(std::string_view bytes) {
        for (const char c : bytes)
            add_byte(static_cast<unsigned char>(c));
    }

    // Its eight bytes, the least first.
    constexpr void add_number(std::uint64_t number) {
        for (unsigned shift = 0; shift < 64; shift += 8)
            add_byte((number >> shift) & 0xFFU);
    }

    constexpr void add_hash(const WideHash& hash) {
        add_number(hash.high);
        add_number(hash.low);
    }

    [[nodiscard]] constexpr WideHash hash() const { return value_; }

private:
    // Times the prime, which is 2 to the power of 88 and `rest`.
    constexpr void add_byte(std::uint64_t byte) {
        constexpr std::uint64_t rest = 0x13B;
        constexpr unsigned half = 32;
        constexpr unsigned beyond_64 = 88 - 64;
        const std::uint64_t low = value_.low ^ byte;
        const std::uint64_t lower = (low & 0xFFFFFFFFU) * rest;
        const std::uint64_t upper = (low >> half) * rest + (lower >> half);
        value_.high = value_.high * rest + (upper >> half) + (low << beyond_64);
        value_.low = (upper << half) | (lower & 0xFFFFFFFFU);
    }

    WideHash value_{0x6C62272E07BB0142U, 0x62B821756295C58DU};
};

}  // namespace stave
