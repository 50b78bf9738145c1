// Characters of UTF-8 text. utf8proc does the work; this is the one place where
// its character interface is seen.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace stave {

struct Character {
    std::int32_t code_point = 0;
    // Bytes; 0 where the text is no UTF-8.
    std::size_t size = 0;
};

// The character that begins at the offset, which is inside the text.
[[nodiscard]] Character character_at(std::string_view text, std::size_t offset);

// Characters of valid UTF-8 text.
[[nodiscard]] std::size_t character_count(std::string_view text);

// The longest beginning of valid UTF-8 text of at most so many bytes that cuts no character.
[[nodiscard]] std::string_view whole_start(std::string_view text, std::size_t most);

// The UTF-8 of a character; empty for what is no character.
[[nodiscard]] std::string encoded(std::int32_t code_point);
// The capital of a letter; the character itself where it has none.
[[nodiscard]] std::int32_t capital(std::int32_t code_point);

// Letters and figures of Hebrew, Arabic and other scripts that run from right to left, by
// Unicode's bidirectional classes R, AL and AN.
[[nodiscard]] bool is_right_to_left(std::int32_t code_point);

// Columns a terminal gives it: 0 for combining marks, 2 for wide characters.
[[nodiscard]] std::size_t column_count(std::int32_t code_point);
[[nodiscard]] std::size_t column_count(std::string_view text);

}  // namespace stave
