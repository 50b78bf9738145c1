// Where the folder is served: a port of this computer.
#pragma once

#include <cstdint>
#include <expected>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/descriptor.hpp"

namespace stave::driver {

struct Listener {
    Descriptor socket;
    std::uint16_t port = 0;
};

// Listens on loopback, which this computer alone reaches, or on all its addresses, those of IPv6
// too where it has any; who comes is then to be looked at (`networks.hpp`). Port 0 takes any that
// is free.
[[nodiscard]] std::expected<Listener, Diagnostic> listen_at(std::uint16_t port, bool is_on_all);

}  // namespace stave::driver
