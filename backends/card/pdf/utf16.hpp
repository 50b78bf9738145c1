// UTF-8 to UTF-16, big endian without a byte order mark: the form of PDF's text
// strings and ToUnicode maps. A bad byte becomes U+FFFD.
#pragma once

#include <string>
#include <string_view>

namespace stave::card {

[[nodiscard]] std::string utf16be(std::string_view utf8);

}  // namespace stave::card
