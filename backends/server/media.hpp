// What a file is, by its name.
#pragma once

#include <string_view>

namespace stave::server {

struct Media {
    std::string_view type;
    // Whether gzip makes it smaller.
    bool packs = false;
    // Whether a browser shows it as a document that could run something.
    bool is_document = false;
};

// By the ending, in whatever letter case. Types are those of the IANA registry: RFC 5545,
// section 8.1, for feeds.
[[nodiscard]] Media media_of(std::string_view path);

}  // namespace stave::server
