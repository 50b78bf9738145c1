#include "backends/card/pdf/utf16.hpp"

#include <algorithm>
#include <cstdint>

#include "compiler/source/utf8.hpp"

namespace stave::card {

namespace {

void append_unit(std::string& out, std::uint32_t unit) {
    out += static_cast<char>((unit >> 8U) & 0xFFU);
    out += static_cast<char>(unit & 0xFFU);
}

}  // namespace

std::string utf16be(std::string_view utf8) {
    std::string out;
    for (std::size_t i = 0; i < utf8.size();) {
        const Character decoded = character_at(utf8, i);
        i += std::max<std::size_t>(decoded.size, 1);
        const std::uint32_t character =
            decoded.size > 0 ? static_cast<std::uint32_t>(decoded.code_point) : 0xFFFDU;
        if (character < 0x10000U) {
            append_unit(out, character);
        } else {
            append_unit(out, 0xD800U + ((character - 0x10000U) >> 10U));
            append_unit(out, 0xDC00U + (character & 0x3FFU));
        }
    }
    return out;
}

}  // namespace stave::card
