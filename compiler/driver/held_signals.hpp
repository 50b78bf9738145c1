// SIGINT, SIGTERM and SIGHUP kept from ending the program, to be read as from a file: a run
// that is in the middle of something finishes it first.
#pragma once

#include <signal.h>

#include <expected>
#include <string>

#include "compiler/driver/descriptor.hpp"

namespace stave::driver {

// They end the program again when the object goes. Threads that are started meanwhile hold
// them back as well.
class HeldSignals {
public:
    // The system's reason where it refuses.
    [[nodiscard]] static std::expected<HeldSignals, std::string> hold();
    ~HeldSignals();
    HeldSignals(HeldSignals&&) noexcept = default;
    HeldSignals(const HeldSignals&) = delete;
    HeldSignals& operator=(const HeldSignals&) = delete;
    HeldSignals& operator=(HeldSignals&&) = delete;

    // Can be read from once one has come.
    [[nodiscard]] int number() const { return descriptor_.number(); }

private:
    HeldSignals(Descriptor descriptor, const sigset_t& before)
        : descriptor_(std::move(descriptor)), before_(before) {}

    Descriptor descriptor_;
    sigset_t before_;
};

}  // namespace stave::driver
