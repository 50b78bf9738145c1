// Putting words together: what the files of this folder share.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "compiler/quantity/quantity.hpp"

namespace stave::wording {

// U+00A0, between a number and its unit.
inline constexpr std::string_view nbsp = "\u00A0";

[[nodiscard]] std::string join(const std::vector<std::string>& words, std::string_view separator);
// Adds separator and word, unless the word is empty.
void append(std::string& text, std::string_view separator, std::string_view word);
// A number and its unit; the number alone where the unit is empty.
[[nodiscard]] std::string beside(std::string_view number, std::string_view unit);
// The value as print shows it: "2.5", "1:30" for minutes that are not whole.
[[nodiscard]] std::string number(Quantity quantity);

}  // namespace stave::wording
