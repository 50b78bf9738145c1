#include "compiler/source/utf8.hpp"

#include <utf8proc.h>

#include <algorithm>
#include <array>

namespace stave {

Character character_at(std::string_view text, std::size_t offset) {
    Character character;
    const auto size = utf8proc_iterate(
        reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + offset,
        static_cast<utf8proc_ssize_t>(text.size() - offset), &character.code_point);
    if (size > 0) character.size = static_cast<std::size_t>(size);
    return character;
}

std::size_t character_count(std::string_view text) {
    const auto begins = std::ranges::count_if(
        text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
    return static_cast<std::size_t>(begins);
}

std::string_view whole_start(std::string_view text, std::size_t most) {
    if (text.size() <= most) return text;
    while (most > 0 && (static_cast<unsigned char>(text[most]) & 0xC0U) == 0x80U)
        --most;
    return text.substr(0, most);
}

std::string encoded(std::int32_t code_point) {
    if (!utf8proc_codepoint_valid(code_point)) return {};
    // No character takes more than four bytes.
    std::array<utf8proc_uint8_t, 4> bytes{};
    const utf8proc_ssize_t size = utf8proc_encode_char(code_point, bytes.data());
    return {bytes.begin(), bytes.begin() + size};
}

std::int32_t capital(std::int32_t code_point) {
    return utf8proc_toupper(code_point);
}

bool is_right_to_left(std::int32_t code_point) {
    const auto direction = utf8proc_get_property(code_point)->bidi_class;
    return direction == UTF8PROC_BIDI_CLASS_R || direction == UTF8PROC_BIDI_CLASS_AL ||
           direction == UTF8PROC_BIDI_CLASS_AN;
}

std::size_t column_count(std::int32_t code_point) {
    return static_cast<std::size_t>(std::max(0, utf8proc_charwidth(code_point)));
}

std::size_t column_count(std::string_view text) {
    std::size_t columns = 0;
    for (std::size_t i = 0; i < text.size();) {
        const Character character = character_at(text, i);
        columns += character.size > 0 ? column_count(character.code_point) : 1;
        i += std::max<std::size_t>(1, character.size);
    }
    return columns;
}

}  // namespace stave
