#include "compiler/driver/listener.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <sys/socket.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cerrno>
#include <memory>
#include <optional>
#include <system_error>

namespace stave::driver {

namespace {

// What the calls of sockets take an address as.
const sockaddr* any_family(const sockaddr_in& address) {
    return std::bit_cast<const sockaddr*>(&address);
}
sockaddr* any_family(sockaddr_in& address) {
    return std::bit_cast<sockaddr*>(&address);
}

std::string dotted(const in_addr& address) {
    std::array<char, INET_ADDRSTRLEN> text{};
    ::inet_ntop(AF_INET, &address, text.data(), text.size());
    return text.data();
}

sockaddr_in address_of(std::uint32_t host, std::uint16_t port) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = ::htonl(host);
    address.sin_port = ::htons(port);
    return address;
}

// The socket's own end, as far as it is known.
std::optional<sockaddr_in> own_end(const Descriptor& socket) {
    sockaddr_in address{};
    socklen_t size = sizeof address;
    if (::getsockname(socket.number(), any_family(address), &size) != 0) return std::nullopt;
    return address;
}

// Connecting a socket of UDP sends nothing, but chooses the address to send from. The other
// end is one of RFC 5737, which is nobody's.
std::optional<std::string> usual_address() {
    constexpr std::uint32_t documentation_host = 0xC0000201;  // 192.0.2.1
    constexpr std::uint16_t discard_port = 9;
    const Descriptor socket(::socket(AF_INET, SOCK_DGRAM | SOCK_CLOEXEC, 0));
    if (!socket.is_open()) return std::nullopt;
    const sockaddr_in there = address_of(documentation_host, discard_port);
    if (::connect(socket.number(), any_family(there), sizeof there) != 0) return std::nullopt;
    const std::optional<sockaddr_in> here = own_end(socket);
    if (!here) return std::nullopt;
    return dotted(here->sin_addr);
}

Diagnostic cannot_listen(std::uint16_t port, int number) {
    const std::string shown = std::to_string(port);
    if (number == EADDRINUSE) return {Code::port_taken, {}, {shown}, {}, {}};
    return {Code::cannot_listen, {}, {shown, std::generic_category().message(number)}, {}, {}};
}

}  // namespace

std::expected<Listener, Diagnostic> listen_at(std::uint16_t port, bool is_on_all) {
    Listener listener{Descriptor(::socket(AF_INET, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0)),
                      port};
    const int socket = listener.socket.number();
    // A port that was left a moment ago is free.
    const int yes = 1;
    const sockaddr_in address = address_of(is_on_all ? INADDR_ANY : INADDR_LOOPBACK, port);
    if (socket < 0 || ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes) != 0 ||
        ::bind(socket, any_family(address), sizeof address) != 0 ||
        ::listen(socket, SOMAXCONN) != 0)
        return std::unexpected(cannot_listen(port, errno));
    if (const auto own = own_end(listener.socket)) listener.port = ::ntohs(own->sin_port);
    return listener;
}

std::vector<std::string> network_addresses() {
    std::vector<std::string> addresses;
    const auto add = [&](std::string address) {
        if (std::ranges::find(addresses, address) == addresses.end())
            addresses.push_back(std::move(address));
    };
    ifaddrs* first = nullptr;
    if (::getifaddrs(&first) != 0) return addresses;
    const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> all(first, ::freeifaddrs);
    for (const ifaddrs* one = first; one != nullptr; one = one->ifa_next) {
        const bool is_reached =
            (one->ifa_flags & IFF_UP) != 0 && (one->ifa_flags & IFF_LOOPBACK) == 0;
        if (!is_reached || one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET)
            continue;
        add(dotted(std::bit_cast<const sockaddr_in*>(one->ifa_addr)->sin_addr));
    }
    const auto usual = std::ranges::find(addresses, usual_address().value_or(""));
    if (usual != addresses.end()) std::rotate(addresses.begin(), usual, usual + 1);
    return addresses;
}

}  // namespace stave::driver
