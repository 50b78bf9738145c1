#include "backends/card/xml.hpp"

#include <cstdint>

#include "compiler/source/markup.hpp"

namespace stave::card {

namespace {

// XML 1.0, production 2, for what UTF-8 can hold.
Fate fate(std::int32_t character) {
    const bool is_control = character < 0x20;
    const bool is_blank = character == '\t' || character == '\n' || character == '\r';
    const bool is_noncharacter = character == 0xFFFE || character == 0xFFFF;
    return (is_control && !is_blank) || is_noncharacter ? Fate::replaced : Fate::kept;
}

}  // namespace

std::string xml_escaped(std::string_view text) {
    return escaped_markup(text, fate);
}

}  // namespace stave::card
