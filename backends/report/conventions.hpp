// What Stave takes where no source settles a question, or two sources differ.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace stave::report {

struct Convention {
    std::string_view question;
    std::string_view choice;
    // What another choice would change.
    std::string_view matters;
};

// In the order of the table in section 17 of the notation's guide, counted from 1.
[[nodiscard]] std::span<const Convention> conventions();

// For a terminal: a paragraph each.
[[nodiscard]] std::string conventions_text();

// A list of objects with `number`, `question`, `choice` and `matters`.
[[nodiscard]] std::string conventions_json();

}  // namespace stave::report
