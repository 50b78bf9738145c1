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

std::string succession(const std::vector<std::string>& numbers, bool rising_pair) {
    return join(numbers, rising_pair ? " then " : "-");
}

std::optional<MinutesAndSeconds> as_clock(Quantity quantity) {
    const bool in_minutes = quantity.unit == Unit::minute && !quantity.value.is_whole();
    const bool in_seconds = quantity.unit == Unit::second && quantity.value > Ratio(90);
    if (!in_minutes && !in_seconds) return std::nullopt;
    const Ratio seconds = in_base_units(quantity);
    if (!seconds.is_whole() || seconds < Ratio(60)) return std::nullopt;
    return MinutesAndSeconds{seconds.numerator() / 60, seconds.numerator() % 60};
}

std::string clock_words(MinutesAndSeconds time) {
    std::string text = beside(std::to_string(time.minutes), "min");
    if (time.seconds > 0) append(text, nbsp, beside(std::to_string(time.seconds), "s"));
    return text;
}

}  // namespace stave::wording
