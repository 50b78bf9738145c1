// Text for XML 1.0: metadata in a PDF, an SVG.
#pragma once

#include <string>
#include <string_view>

namespace stave::card {

// For content and for attributes in double quotes. What XML cannot hold (bytes that are
// no UTF-8, most control characters) becomes U+FFFD.
[[nodiscard]] std::string xml_escaped(std::string_view text);

}  // namespace stave::card
