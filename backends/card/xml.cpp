#include "backends/card/xml.hpp"

#include <algorithm>
#include <cstdint>

#include "compiler/source/utf8.hpp"

namespace stave::card {

namespace {

// XML 1.0, production 2, for what UTF-8 can hold.
bool is_allowed(std::int32_t character) {
    if (character < 0x20) return character == '\t' || character == '\n' || character == '\r';
    return character != 0xFFFE && character != 0xFFFF;
}

}  // namespace

std::string xml_escaped(std::string_view text) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const Character character = character_at(text, at);
        const std::size_t size = std::max<std::size_t>(character.size, 1);
        if (character.size == 0 || !is_allowed(character.code_point)) {
            out += "\uFFFD";
        } else if (character.code_point == '&') {
            out += "&amp;";
        } else if (character.code_point == '<') {
            out += "&lt;";
        } else if (character.code_point == '>') {
            out += "&gt;";
        } else if (character.code_point == '"') {
            out += "&quot;";
        } else {
            out += text.substr(at, size);
        }
        at += size;
    }
    return out;
}

}  // namespace stave::card
