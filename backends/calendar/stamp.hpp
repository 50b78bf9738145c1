// Dates with times as RFC 5545 writes them (section 3.3.5): "20261203T183000"
// for wall-clock times, with a Z behind it for UTC. Years 1 to 9999.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace stave::calendar {

[[nodiscard]] std::string local_stamp(std::chrono::local_seconds time);
[[nodiscard]] std::string utc_stamp(std::chrono::sys_seconds time);

// Only the exact form with Z; nothing for any other text, or for a date that no
// calendar has.
[[nodiscard]] std::optional<std::chrono::sys_seconds> parse_utc_stamp(std::string_view text);

}  // namespace stave::calendar
