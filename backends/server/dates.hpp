// Times in fields of HTTP (RFC 9110, section 5.6.7).
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace stave::server {

// "Sun, 06 Nov 1994 08:49:37 GMT".
[[nodiscard]] std::string date_text(std::chrono::sys_seconds time);

// Reads the form above and the two old ones. A year of two digits that would be more than 50
// years after `now` is of the past. Nothing where the text is none of them; names of days are
// not held against the date.
[[nodiscard]] std::optional<std::chrono::sys_seconds> read_date(std::string_view text,
                                                                std::chrono::sys_seconds now);

}  // namespace stave::server
