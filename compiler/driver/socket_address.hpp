// What the calls of sockets take an address as, whatever its family.
#pragma once

#include <sys/socket.h>

#include <bit>

namespace stave::driver {

template <typename Address>
const sockaddr* any_family(const Address& address) {
    return std::bit_cast<const sockaddr*>(&address);
}
template <typename Address>
sockaddr* any_family(Address& address) {
    return std::bit_cast<sockaddr*>(&address);
}

}  // namespace stave::driver
