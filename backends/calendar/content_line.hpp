// The text layer of RFC 5545: what may stand in a value, how it is escaped
// (section 3.3.11), and how long lines are folded (section 3.1).
//
// Takes any bytes. Control characters never come out; bytes that are no UTF-8
// come out as U+FFFD, so that no text can break a feed or smuggle lines into it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace stave::calendar {

// A value may run over several lines or must stay on one.
enum class Lines { many, one };

// Every line break (CR LF, CR, LF, U+0085, U+2028, U+2029) becomes a line feed,
// or a space where the text stays on one line; a tab becomes a space; the other
// controls (C0, C1, DEL) are dropped.
[[nodiscard]] std::string clean(std::string_view text, Lines lines);

// Length in UTF-16 units, the measure of calendar programs' limits. `text` is
// UTF-8, a line feed counts one.
[[nodiscard]] std::size_t utf16_length(std::string_view text);

// At most `limit` units, limit >= 1; a text that was cut ends in "…".
[[nodiscard]] std::string shorten(std::string text, std::size_t limit);

// Backslash, semicolon, comma and line feed in their escaped form. `text` is clean.
[[nodiscard]] std::string escape(std::string_view text);

// What was escaped. A backslash before any other sign stands for that sign.
[[nodiscard]] std::string unescape(std::string_view text);

// Content lines, unfolded and without their ends.
using ContentLines = std::vector<std::string>;

// Appends the line to `feed`, ended by CR LF and folded so that no piece has more than 75
// octets; never inside a character. The line is UTF-8.
void append_line(std::string& feed, std::string_view line);
void append_folded(std::string& feed, const ContentLines& lines);

}  // namespace stave::calendar
