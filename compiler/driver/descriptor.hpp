// A file descriptor that is closed on every way out.
#pragma once

#include <unistd.h>

#include <utility>

namespace stave::driver {

class Descriptor {
public:
    // Negative: none.
    explicit Descriptor(int number = -1) : number_(number) {}
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    Descriptor(Descriptor&& other) noexcept : number_(other.release()) {}
    Descriptor& operator=(Descriptor&& other) noexcept {
        std::swap(number_, other.number_);
        return *this;
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;

    [[nodiscard]] int number() const { return number_; }
    [[nodiscard]] bool is_open() const { return number_ >= 0; }
    // Before the end of its life, to see the error.
    [[nodiscard]] bool close() { return ::close(release()) == 0; }
    // Whoever calls closes it.
    [[nodiscard]] int release() { return std::exchange(number_, -1); }

private:
    int number_;
};

}  // namespace stave::driver
