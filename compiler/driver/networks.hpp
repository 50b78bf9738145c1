// This computer in its networks: the addresses that others reach it by, and which of those who
// come are in one of them.
#pragma once

#include <netinet/in.h>
#include <sys/socket.h>

#include <span>
#include <string>
#include <vector>

namespace stave::driver {

// As they stand in the address of a page. Those of IPv4, first the one that it would send from by
// itself; where there are none, those of IPv6 that need no name of an interface: "192.168.1.20",
// "[fd12::20]". None twice.
[[nodiscard]] std::vector<std::string> network_addresses();

// Whether a client by this address, which came to a computer with the addresses `own`, is in the
// same network. Of IPv4 everybody is: addresses at home lead nowhere from outside. Of IPv6 they
// do, so there it is who comes by an address for the place alone (RFC 4291, section 2.5.6, and
// RFC 4193), or from behind the same 64 bits (RFC 4291, section 2.5.1).
[[nodiscard]] bool is_near(const in6_addr& client, std::span<const in6_addr> own);

// The same of a client as a socket tells it, and of this computer as it is now.
[[nodiscard]] bool is_in_network(const sockaddr* client);

}  // namespace stave::driver
