// Addresses of the web, held against RFC 3986.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "compiler/diagnostics/diagnostic.hpp"

namespace stave::syntax {

// What is wrong with an address, and which of its bytes: `link_start`, `link_blank`, `link_sign`,
// `link_percent`, `link_host` (the empty place before it) or `link_long`.
struct LinkFault {
    Code code{};
    std::size_t begin = 0;
    std::size_t size = 0;
};

// The first fault of an address of http or https; nothing where it is sound.
[[nodiscard]] std::optional<LinkFault> find_link_fault(std::string_view link);

// With %XX for every byte that an address cannot hold.
[[nodiscard]] std::string percent_encoded(std::string_view text);

// "www.example.org/winter", where only the scheme is missing: a name with a point before
// anything that a scheme or a mailbox would have.
[[nodiscard]] bool begins_with_host(std::string_view text);

}  // namespace stave::syntax
