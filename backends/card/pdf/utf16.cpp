#include "backends/card/pdf/utf16.hpp"

#include <utf8proc.h>

#include <cstdint>

namespace stave::card {

namespace {

void append_unit(std::string& out, std::uint32_t unit) {
    out += static_cast<char>((unit >> 8U) & 0xFFU);
    out += static_cast<char>(unit & 0xFFU);
}

}  // namespace

std::string utf16be(std::string_view utf8) {
    const auto* bytes = static_cast<const utf8proc_uint8_t*>(static_cast<const void*>(utf8.data()));
    std::string out;
    for (std::size_t i = 0; i < utf8.size();) {
        utf8proc_int32_t decoded = -1;
        const utf8proc_ssize_t size =
            utf8proc_iterate(bytes + i, static_cast<utf8proc_ssize_t>(utf8.size() - i), &decoded);
        i += size > 0 ? static_cast<std::size_t>(size) : 1;
        const std::uint32_t character = size > 0 ? static_cast<std::uint32_t>(decoded) : 0xFFFDU;
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
