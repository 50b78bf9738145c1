// Putting words together: what the files of this folder share.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/quantity/quantity.hpp"
#include "compiler/wording/language.hpp"

namespace stave::wording {

// U+00A0, between a number and its unit.
inline constexpr std::string_view nbsp = "\u00A0";

[[nodiscard]] std::string join(const std::vector<std::string>& words, std::string_view separator);
// Adds separator and word, unless the word is empty.
void append(std::string& text, std::string_view separator, std::string_view word);
// A number and its unit; the number alone where the unit is empty.
[[nodiscard]] std::string beside(std::string_view number, std::string_view unit);

// Values of successive sets: "12-10-8"; two that rise are "8 then 10".
[[nodiscard]] std::string succession(Language language, const std::vector<std::string>& numbers,
                                     bool rising_pair);

// A time as a clock counts it; seconds below 60.
struct MinutesAndSeconds {
    std::int64_t minutes = 0;
    Ratio seconds;
};
// For seconds beyond 90 and for minutes that are not whole, from one minute
// on: "150 s" and "2.5 min" are slow to read. Nothing for any other quantity.
[[nodiscard]] std::optional<MinutesAndSeconds> as_clock(Quantity quantity);
// Any time, split.
[[nodiscard]] MinutesAndSeconds split_time(Ratio seconds);
// "2:30", "7:28.4".
[[nodiscard]] std::string clock_digits(Language language, MinutesAndSeconds time);
// "2 min 30 s", "2 min".
[[nodiscard]] std::string clock_words(Language language, MinutesAndSeconds time);

}  // namespace stave::wording
