// A hash of a text that is the same on every machine and in every version, for
// names and revisions. It is no protection against people who mean harm.
#pragma once

#include <cstdint>
#include <string_view>

namespace stave {

// FNV-1a, 64 bits (Fowler, Noll and Vo; constants from their description).
[[nodiscard]] constexpr std::uint64_t text_hash(std::string_view text) {
    std::uint64_t value = 14695981039346656037ULL;
    for (const char c : text) {
        value ^= static_cast<unsigned char>(c);
        value *= 1099511628211ULL;
    }
    return value;
}

}  // namespace stave
