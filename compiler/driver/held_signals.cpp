#include "compiler/driver/held_signals.hpp"

#include <sys/signalfd.h>

#include <array>
#include <cerrno>
#include <system_error>

namespace stave::driver {

std::expected<HeldSignals, std::string> HeldSignals::hold() {
    sigset_t wanted;
    sigset_t before;
    sigemptyset(&wanted);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP})
        sigaddset(&wanted, signal);
    Descriptor descriptor(::signalfd(-1, &wanted, SFD_CLOEXEC | SFD_NONBLOCK));
    if (descriptor.number() < 0) return std::unexpected(std::generic_category().message(errno));
    ::pthread_sigmask(SIG_BLOCK, &wanted, &before);
    return HeldSignals(std::move(descriptor), before);
}

HeldSignals::~HeldSignals() {
    // Moved from.
    if (number() < 0) return;
    // Those that were obeyed must not strike once they are let through.
    std::array<signalfd_siginfo, 8> obeyed;
    while (::read(number(), obeyed.data(), sizeof obeyed) > 0) {
    }
    ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

}  // namespace stave::driver
