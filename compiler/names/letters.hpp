// What words are made of, for who looks for one in a text.
#pragma once

namespace stave {

// ASCII letters and digits, and every byte of a longer character, which is
// taken for a letter.
[[nodiscard]] constexpr bool is_letter_or_digit(char c) {
    const auto byte = static_cast<unsigned char>(c);
    constexpr unsigned char first_of_many = 0x80;
    return byte >= first_of_many || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9');
}

}  // namespace stave
