// Writes a document's objects as a small file. libharu puts every object into the file as
// it is and knows no object streams (ISO 32000-1, 7.5.7 and 7.5.8), so that half of a
// tagged card would be brackets and numbers. Here libharu writes the objects one by one,
// all but streams are compressed together, and the cross-references are a stream too.
#pragma once

#include <string>

#include "backends/card/pdf/objects.hpp"

namespace stave::card {

// Sixteen bytes, of which the same twice is the file's identifier. Ends the document.
[[nodiscard]] std::string compact_file(const Objects& objects, const std::string& identifier);

}  // namespace stave::card
