#include "compiler/driver/hashes.hpp"

#include <sodium.h>
#include <sys/random.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <stdexcept>

namespace stave::driver {

namespace {

constexpr std::string_view base32 = "abcdefghijklmnopqrstuvwxyz234567";
constexpr unsigned bits_of_digit = 5;
constexpr std::size_t secret_bytes = 16;
constexpr std::size_t token_size = (secret_bytes * 8 + bits_of_digit - 1) / bits_of_digit;

}  // namespace

struct Sha256::State {
    crypto_hash_sha256_state hash{};
};

Sha256::Sha256() : state_(std::make_unique<State>()) {
    crypto_hash_sha256_init(&state_->hash);
}

Sha256::~Sha256() = default;

Sha256::Sha256(Sha256&& other) noexcept = default;

void Sha256::add(std::string_view bytes) {
    // Bytes are bytes, whatever type a library gives them.
    crypto_hash_sha256_update(&state_->hash, reinterpret_cast<const unsigned char*>(bytes.data()),
                              bytes.size());
}

std::string Sha256::digits() {
    constexpr std::string_view digits = "0123456789abcdef";
    std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
    crypto_hash_sha256_final(&state_->hash, hash.data());
    std::string text;
    for (const unsigned char byte : hash) {
        text += digits[byte >> 4U];
        text += digits[byte & 0xFU];
    }
    return text;
}

std::string sha256(std::string_view bytes) {
    Sha256 hash;
    hash.add(bytes);
    return hash.digits();
}

std::string make_token() {
    std::array<std::uint8_t, secret_bytes> secret{};
    // Up to 256 bytes come whole, once the system has gathered enough chance.
    ssize_t taken = -1;
    do {
        taken = ::getrandom(secret.data(), secret.size(), 0);
    } while (taken < 0 && errno == EINTR);
    if (taken != static_cast<ssize_t>(secret.size()))
        throw std::runtime_error("the system gives no random numbers");
    std::string token;
    std::uint32_t waiting = 0;
    unsigned bits = 0;
    for (const std::uint8_t byte : secret) {
        waiting = (waiting << 8U) | byte;
        for (bits += 8; bits >= bits_of_digit; bits -= bits_of_digit)
            token += base32[(waiting >> (bits - bits_of_digit)) & 31U];
        waiting &= 31U;
    }
    token += base32[(waiting << (bits_of_digit - bits)) & 31U];
    return token;
}

bool is_token(std::string_view text) {
    return text.size() == token_size &&
           std::ranges::all_of(text, [](char sign) { return base32.contains(sign); });
}

}  // namespace stave::driver
