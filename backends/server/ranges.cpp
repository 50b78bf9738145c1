#include "backends/server/ranges.hpp"

#include <algorithm>
#include <limits>
#include <optional>

#include "backends/server/request.hpp"

namespace stave::server {

namespace {

// Digits alone; a number too large to be held is as good as the largest.
std::optional<std::uint64_t> number_of(std::string_view text) {
    constexpr std::uint64_t largest = std::numeric_limits<std::uint64_t>::max();
    if (text.empty()) return std::nullopt;
    std::uint64_t number = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
        const auto digit = static_cast<std::uint64_t>(c - '0');
        number = number > (largest - digit) / 10 ? largest : number * 10 + digit;
    }
    return number;
}

// "-500": the last ones.
AskedRange last_bytes(std::string_view count_text, std::uint64_t size) {
    const auto count = number_of(count_text);
    if (!count) return WholeRange{};
    const std::uint64_t length = std::min(*count, size);
    if (length == 0) return NoRange{};
    return PartRange{size - length, length};
}

}  // namespace

AskedRange asked_range(std::string_view value, std::uint64_t size) {
    constexpr std::string_view unit = "bytes=";
    value = trimmed(value);
    if (!same_name(value.substr(0, unit.size()), unit)) return WholeRange{};
    value = trimmed(value.substr(unit.size()));
    const std::size_t hyphen = value.find('-');
    if (hyphen == std::string_view::npos || value.contains(',')) return WholeRange{};
    if (hyphen == 0) return last_bytes(value.substr(1), size);
    const auto first = number_of(value.substr(0, hyphen));
    const bool is_open = hyphen + 1 == value.size();
    const auto last =
        is_open ? std::numeric_limits<std::uint64_t>::max() : number_of(value.substr(hyphen + 1));
    if (!first || !last || *last < *first) return WholeRange{};
    if (*first >= size) return NoRange{};
    return PartRange{*first, std::min(*last, size - 1) - *first + 1};
}

}  // namespace stave::server
