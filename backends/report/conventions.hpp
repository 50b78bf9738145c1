// What no source settles and this program has to choose: `stave conventions`, and the table of
// NOTATION.md, which a test holds against it.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace stave::report {

// In the marks of NOTATION.md, so that its table is the same text.
struct Convention {
    std::string_view question;
    std::string_view choice;
    // How much hangs on it, or who says what.
    std::string_view matters;
};

[[nodiscard]] std::span<const Convention> conventions();

// Each with its number; marks left out.
[[nodiscard]] std::string conventions_text();

// A list of objects with `number`, `question`, `choice` and `matters`, marks left out.
[[nodiscard]] std::string conventions_json();

}  // namespace stave::report
