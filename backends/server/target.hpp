// From the target of a request to the path of a file in the folder.
//
// A path that comes out of here has no part that is empty, begins with a point or holds a
// stroke or a control character, so it cannot lead out of the folder by its words; that it
// does not by links is up to who opens it.
#pragma once

#include <expected>
#include <string>
#include <string_view>

namespace stave::server {

struct Place {
    // From the folder, with `/` and without one at either end; empty for the folder itself.
    std::string path;
    // The target ends in a stroke.
    bool is_folder = false;
};

enum class Refusal {
    // No target that HTTP knows (RFC 9112, section 3.2), or an escape that is none.
    malformed,
    // What nobody is shown: hidden names, and those that Stave keeps for itself.
    hidden,
};

// Takes both forms that servers must (RFC 9112, sections 3.2.1 and 3.2.2); a query is left out.
[[nodiscard]] std::expected<Place, Refusal> place_of(std::string_view target);

// Whether a path leads to what its address alone protects.
[[nodiscard]] bool is_private(std::string_view path);

// As it stands in an address (RFC 3986, section 3.3): visible ASCII alone, so that it can be
// logged too.
[[nodiscard]] std::string escaped_path(std::string_view path);

}  // namespace stave::server
