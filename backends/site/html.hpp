// Text for HTML, as the WHATWG's living standard has it. The one place of this folder where
// text is escaped.
#pragma once

#include <string>
#include <string_view>

namespace stave::site {

// For content and for attributes in double quotes. What a page cannot hold (bytes that are no
// UTF-8, control characters, noncharacters) becomes U+FFFD; marks that turn the direction of what
// follows are dropped, since they would reach beyond the text.
[[nodiscard]] std::string escaped(std::string_view text);

// A text that somebody typed, kept apart from what stands around it, whichever way it is
// written.
[[nodiscard]] std::string isolated(std::string_view text);

// `<a href="...">`, its words already HTML. `hidden` is read out and not seen; it may be empty.
struct Anchor {
    std::string_view href;
    std::string_view words;
    std::string_view hidden = {};
    std::string_view style_class = {};
};
[[nodiscard]] std::string anchor(const Anchor& anchor);

}  // namespace stave::site
