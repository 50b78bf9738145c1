// Where the folder is served: a port of this computer, and the addresses that others reach it by.
#pragma once

#include <cstdint>
#include <expected>
#include <string>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/descriptor.hpp"

namespace stave::driver {

struct Listener {
    Descriptor socket;
    std::uint16_t port = 0;
};

// Listens on loopback, which this computer alone reaches, or on all its addresses of IPv4:
// every network at home has them, and unlike those of IPv6 they are seldom reached from outside
// of it. Port 0 takes any that is free.
[[nodiscard]] std::expected<Listener, Diagnostic> listen_at(std::uint16_t port, bool is_on_all);

// This computer's addresses of IPv4 in its networks: "192.168.1.20". First the one that it would
// send from by itself; none twice.
[[nodiscard]] std::vector<std::string> network_addresses();

}  // namespace stave::driver
