// Which bytes a Range field asks for (RFC 9110, section 14).
#pragma once

#include <cstdint>
#include <string_view>
#include <variant>

namespace stave::server {

// The field is left aside: no range of bytes, not understood, or several at once, which a
// server need not give (section 14.2).
struct WholeRange {};

// None of its bytes is there (section 14.1.2).
struct NoRange {};

// Inside the representation, and not empty.
struct PartRange {
    std::uint64_t first = 0;
    std::uint64_t length = 0;
};

using AskedRange = std::variant<WholeRange, NoRange, PartRange>;

// Of a representation of `size` bytes.
[[nodiscard]] AskedRange asked_range(std::string_view value, std::uint64_t size);

}  // namespace stave::server
