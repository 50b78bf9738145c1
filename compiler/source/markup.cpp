#include "compiler/source/markup.hpp"

#include <algorithm>

#include "compiler/source/utf8.hpp"

namespace stave {

namespace {

// Empty where the character needs none.
std::string_view reference(std::int32_t character) {
    switch (character) {
        case '&':
            return "&amp;";
        case '<':
            return "&lt;";
        case '>':
            return "&gt;";
        case '"':
            return "&quot;";
        default:
            return "";
    }
}

}  // namespace

std::string escaped_markup(std::string_view text, Fate (*fate)(std::int32_t)) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const Character character = character_at(text, at);
        const std::size_t size = std::max<std::size_t>(character.size, 1);
        const std::string_view instead = reference(character.code_point);
        const Fate own = character.size == 0 ? Fate::replaced : fate(character.code_point);
        if (!instead.empty()) {
            out += instead;
        } else if (own == Fate::replaced) {
            out += "\uFFFD";
        } else if (own == Fate::kept) {
            out += text.substr(at, size);
        }
        at += size;
    }
    return out;
}

}  // namespace stave
