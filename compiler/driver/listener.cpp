#include "compiler/driver/listener.hpp"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>

#include <cerrno>
#include <string>
#include <system_error>
#include <utility>

#include "compiler/driver/socket_address.hpp"

namespace stave::driver {

namespace {

sockaddr_in ipv4_end(std::uint32_t host, std::uint16_t port) {
    sockaddr_in end{};
    end.sin_family = AF_INET;
    end.sin_addr.s_addr = ::htonl(host);
    end.sin_port = ::htons(port);
    return end;
}

// All addresses, of IPv4 too.
sockaddr_in6 every_end(std::uint16_t port) {
    sockaddr_in6 end{};
    end.sin6_family = AF_INET6;
    end.sin6_addr = in6addr_any;
    end.sin6_port = ::htons(port);
    return end;
}

std::uint16_t port_of(const sockaddr_in& end) {
    return ::ntohs(end.sin_port);
}
std::uint16_t port_of(const sockaddr_in6& end) {
    return ::ntohs(end.sin6_port);
}

bool set(int socket, int level, int option, int value) {
    return ::setsockopt(socket, level, option, &value, sizeof value) == 0;
}

// The number of the error where it does not.
template <typename End>
std::expected<Listener, int> listen_on(int family, End end) {
    Listener listener{Descriptor(::socket(family, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0)),
                      port_of(end)};
    const int socket = listener.socket.number();
    // A port that was left a moment ago is free.
    if (socket < 0 || !set(socket, SOL_SOCKET, SO_REUSEADDR, 1) ||
        (family == AF_INET6 && !set(socket, IPPROTO_IPV6, IPV6_V6ONLY, 0)) ||
        ::bind(socket, any_family(end), sizeof end) != 0 || ::listen(socket, SOMAXCONN) != 0)
        return std::unexpected(errno);
    socklen_t size = sizeof end;
    if (::getsockname(socket, any_family(end), &size) == 0) listener.port = port_of(end);
    return listener;
}

Diagnostic cannot_listen(std::uint16_t port, int number) {
    const std::string shown = std::to_string(port);
    if (number == EADDRINUSE) return {Code::port_taken, {}, {shown}, {}, {}};
    return {Code::cannot_listen, {}, {shown, std::generic_category().message(number)}, {}, {}};
}

}  // namespace

std::expected<Listener, Diagnostic> listen_at(std::uint16_t port, bool is_on_all) {
    const auto by_ipv4 = [&](std::uint32_t host) {
        return listen_on(AF_INET, ipv4_end(host, port));
    };
    auto listener = is_on_all ? listen_on(AF_INET6, every_end(port)) : by_ipv4(INADDR_LOOPBACK);
    // Some computers know no IPv6.
    if (is_on_all && !listener &&
        (listener.error() == EAFNOSUPPORT || listener.error() == EADDRNOTAVAIL))
        listener = by_ipv4(INADDR_ANY);
    if (!listener) return std::unexpected(cannot_listen(port, listener.error()));
    return std::move(*listener);
}

}  // namespace stave::driver
