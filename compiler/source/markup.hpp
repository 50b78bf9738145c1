// Text between the tags of XML and HTML.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace stave {

// What becomes of a character: it is kept, left out, or U+FFFD stands for it.
enum class Fate : std::uint8_t { kept, dropped, replaced };

// `text`, UTF-8, with & < > " as references, which both languages have (XML 1.0, section 4.6);
// `fate` tells of all other characters. Bytes that are no character are replaced.
[[nodiscard]] std::string escaped_markup(std::string_view text, Fate (*fate)(std::int32_t));

}  // namespace stave
