// Fingerprints of files, and secrets that nobody guesses. libsodium is seen by hashes.cpp alone.
#pragma once

#include <memory>
#include <string>
#include <string_view>

namespace stave::driver {

// SHA-256 (FIPS 180-4) in small hexadecimal digits.
[[nodiscard]] std::string sha256(std::string_view bytes);

// The same of bytes that come part by part.
class Sha256 {
public:
    Sha256();
    ~Sha256();
    Sha256(Sha256&& other) noexcept;
    Sha256(const Sha256&) = delete;
    Sha256& operator=(const Sha256&) = delete;

    void add(std::string_view bytes);
    // Once, when all are there.
    [[nodiscard]] std::string digits();

private:
    struct State;
    std::unique_ptr<State> state_;
};

// 128 bits of the system's generator as 26 letters and digits: base 32 of RFC 4648, section 6,
// in small letters and without padding, so that it can be read out and typed.
[[nodiscard]] std::string make_token();

// Whether the text has the form of a token; not whether anybody could guess it.
[[nodiscard]] bool is_token(std::string_view text);

}  // namespace stave::driver
