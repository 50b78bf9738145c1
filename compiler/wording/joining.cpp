#include "compiler/wording/joining.hpp"

#include <fmt/format.h>

namespace stave::wording {

std::string join(const std::vector<std::string>& words, std::string_view separator) {
    std::string text;
    for (std::size_t index = 0; index < words.size(); ++index) {
        if (index > 0) text += separator;
        text += words[index];
    }
    return text;
}

void append(std::string& text, std::string_view separator, std::string_view word) {
    if (word.empty()) return;
    if (!text.empty()) text += separator;
    text += word;
}

std::string beside(std::string_view number, std::string_view unit) {
    return unit.empty() ? std::string(number) : fmt::format("{}{}{}", number, nbsp, unit);
}

std::string number(Quantity quantity) {
    const Ratio seconds = quantity.value * Ratio(60);
    const bool as_clock =
        quantity.unit == Unit::minute && !quantity.value.is_whole() && seconds.is_whole();
    if (!as_clock) return to_decimal(quantity.value);
    return fmt::format("{}:{:02}", seconds.numerator() / 60, seconds.numerator() % 60);
}

}  // namespace stave::wording
