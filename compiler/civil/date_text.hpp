// Days and times of day as ISO 8601 writes them.
#pragma once

#include <chrono>
#include <string>

namespace stave::civil {

// "2026-12-03"; the year is 0 to 9999.
[[nodiscard]] std::string date_text(std::chrono::year_month_day date);

// "18:30"; minutes since midnight, and again from 00:00 behind a day's last.
[[nodiscard]] std::string clock_text(std::chrono::minutes clock);

}  // namespace stave::civil
