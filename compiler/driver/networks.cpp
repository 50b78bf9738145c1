#include "compiler/driver/networks.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cstring>
#include <memory>
#include <optional>
#include <utility>

#include "compiler/driver/descriptor.hpp"
#include "compiler/driver/socket_address.hpp"

namespace stave::driver {

namespace {

const in_addr& ipv4_of(const sockaddr* address) {
    return std::bit_cast<const sockaddr_in*>(address)->sin_addr;
}
const in6_addr& ipv6_of(const sockaddr* address) {
    return std::bit_cast<const sockaddr_in6*>(address)->sin6_addr;
}

std::string dotted(const in_addr& address) {
    std::array<char, INET_ADDRSTRLEN> text{};
    ::inet_ntop(AF_INET, &address, text.data(), text.size());
    return text.data();
}

// RFC 3986, section 3.2.2.
std::string bracketed(const in6_addr& address) {
    std::array<char, INET6_ADDRSTRLEN> text{};
    ::inet_ntop(AF_INET6, &address, text.data(), text.size());
    return std::string("[").append(text.data()).append("]");
}

bool is_of_link(const in6_addr& address) {
    return address.s6_addr[0] == 0xFE && (address.s6_addr[1] & 0xC0U) == 0x80;
}

// RFC 4193: fc00::/7.
bool is_unique_local(const in6_addr& address) {
    return (address.s6_addr[0] & 0xFEU) == 0xFC;
}

// RFC 4291, sections 2.5.3 and 2.5.5.2.
bool is_loopback(const in6_addr& address) {
    return std::memcmp(&address, &in6addr_loopback, sizeof address) == 0;
}
bool is_mapped(const in6_addr& address) {
    constexpr std::array<unsigned char, 12> head{0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0xFF, 0xFF};
    return std::equal(head.begin(), head.end(), address.s6_addr);
}

bool shares_network(const in6_addr& one, const in6_addr& other) {
    constexpr std::size_t prefix_bytes = 8;
    return std::memcmp(&one, &other, prefix_bytes) == 0;
}

struct Own {
    std::vector<in_addr> ipv4;
    std::vector<in6_addr> ipv6;
};

// Of the interfaces that lead to others.
Own own_addresses() {
    Own own;
    ifaddrs* first = nullptr;
    if (::getifaddrs(&first) != 0) return own;
    const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> all(first, ::freeifaddrs);
    for (const ifaddrs* one = first; one != nullptr; one = one->ifa_next) {
        const bool is_reached =
            (one->ifa_flags & IFF_UP) != 0 && (one->ifa_flags & IFF_LOOPBACK) == 0;
        if (!is_reached || one->ifa_addr == nullptr) continue;
        if (one->ifa_addr->sa_family == AF_INET) own.ipv4.push_back(ipv4_of(one->ifa_addr));
        if (one->ifa_addr->sa_family == AF_INET6) own.ipv6.push_back(ipv6_of(one->ifa_addr));
    }
    return own;
}

// Connecting a socket of UDP sends nothing, but chooses the address to send from. The other
// end is one of RFC 5737, which is nobody's.
std::optional<std::string> usual_address() {
    constexpr std::uint32_t documentation_host = 0xC0000201;  // 192.0.2.1
    constexpr std::uint16_t discard_port = 9;
    const Descriptor socket(::socket(AF_INET, SOCK_DGRAM | SOCK_CLOEXEC, 0));
    if (!socket.is_open()) return std::nullopt;
    sockaddr_in there{};
    there.sin_family = AF_INET;
    there.sin_addr.s_addr = ::htonl(documentation_host);
    there.sin_port = ::htons(discard_port);
    if (::connect(socket.number(), any_family(there), sizeof there) != 0) return std::nullopt;
    sockaddr_in here{};
    socklen_t size = sizeof here;
    if (::getsockname(socket.number(), any_family(here), &size) != 0) return std::nullopt;
    return dotted(here.sin_addr);
}

}  // namespace

std::vector<std::string> network_addresses() {
    const Own own = own_addresses();
    std::vector<std::string> addresses;
    const auto add = [&](std::string address) {
        if (std::ranges::find(addresses, address) == addresses.end())
            addresses.push_back(std::move(address));
    };
    for (const in_addr& address : own.ipv4)
        add(dotted(address));
    const auto usual = std::ranges::find(addresses, usual_address().value_or(""));
    if (usual != addresses.end()) std::rotate(addresses.begin(), usual, usual + 1);
    if (!addresses.empty()) return addresses;
    for (const in6_addr& address : own.ipv6)
        if (!is_of_link(address)) add(bracketed(address));
    return addresses;
}

bool is_near(const in6_addr& client, std::span<const in6_addr> own) {
    if (is_mapped(client) || is_loopback(client)) return true;
    if (is_of_link(client) || is_unique_local(client)) return true;
    return std::ranges::any_of(
        own, [&](const in6_addr& address) { return shares_network(client, address); });
}

bool is_in_network(const sockaddr* client) {
    return client->sa_family != AF_INET6 || is_near(ipv6_of(client), own_addresses().ipv6);
}

}  // namespace stave::driver
