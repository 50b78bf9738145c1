#include "compiler/wording/joining.hpp"

#include <fmt/format.h>

#include "compiler/wording/words.hpp"

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

std::string succession(Language language, const std::vector<std::string>& numbers,
                       bool rising_pair) {
    return join(numbers, rising_pair ? word(language, Word::then_between) : "-");
}

std::optional<MinutesAndSeconds> as_clock(Quantity quantity) {
    const bool in_minutes = quantity.unit == Unit::minute && !quantity.value.is_whole();
    const bool in_seconds = quantity.unit == Unit::second && quantity.value > Ratio(90);
    if (!in_minutes && !in_seconds) return std::nullopt;
    const Ratio seconds = in_base_units(quantity);
    if (seconds < Ratio(60)) return std::nullopt;
    return split_time(seconds);
}

MinutesAndSeconds split_time(Ratio seconds) {
    constexpr std::int64_t minute = 60;
    const std::int64_t minutes = floor(seconds / Ratio(minute));
    return {minutes, seconds - Ratio(minutes * minute)};
}

std::string clock_digits(Language language, MinutesAndSeconds time) {
    return fmt::format("{}:{}{}", time.minutes, time.seconds < Ratio(10) ? "0" : "",
                       decimal(language, time.seconds));
}

std::string clock_words(Language language, MinutesAndSeconds time) {
    std::string text = beside(std::to_string(time.minutes), "min");
    if (time.seconds > Ratio(0)) append(text, nbsp, beside(decimal(language, time.seconds), "s"));
    return text;
}

}  // namespace stave::wording
