#include "backends/site/html.hpp"

#include <fmt/format.h>

#include <cstdint>

#include "compiler/source/markup.hpp"

namespace stave::site {

namespace {

// HTML, section 13.1.4: what a document's text may not hold. Line ends and tabs are
// whitespace there and nothing else.
bool is_allowed(std::int32_t character) {
    if (character < 0x20) return character == '\t' || character == '\n';
    if (character >= 0x7F && character <= 0x9F) return false;
    const bool is_noncharacter =
        (character >= 0xFDD0 && character <= 0xFDEF) || (character & 0xFFFE) == 0xFFFE;
    return !is_noncharacter;
}

// Unicode, UAX 9: embeddings, overrides and isolates, which last until they are closed.
bool turns_direction(std::int32_t character) {
    return (character >= 0x202A && character <= 0x202E) ||
           (character >= 0x2066 && character <= 0x2069);
}

Fate fate(std::int32_t character) {
    if (!is_allowed(character)) return Fate::replaced;
    return turns_direction(character) ? Fate::dropped : Fate::kept;
}

}  // namespace

std::string escaped(std::string_view text) {
    return escaped_markup(text, fate);
}

std::string isolated(std::string_view text) {
    return fmt::format("<bdi>{}</bdi>", escaped(text));
}

std::string anchor(const Anchor& anchor) {
    std::string out = "<a";
    if (!anchor.style_class.empty()) out += fmt::format(" class=\"{}\"", anchor.style_class);
    out += fmt::format(" href=\"{}\">{}", escaped(anchor.href), anchor.words);
    if (!anchor.hidden.empty()) {
        out += fmt::format("<span class=\"unseen\"> {}</span>", isolated(anchor.hidden));
    }
    return out + "</a>";
}

}  // namespace stave::site
