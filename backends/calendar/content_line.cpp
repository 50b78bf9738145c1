#include "backends/calendar/content_line.hpp"

#include <cstdint>

#include "compiler/source/utf8.hpp"

namespace stave::calendar {

namespace {

constexpr std::string_view ellipsis = "…";
constexpr std::string_view replacement = "\uFFFD";

// RFC 5545, section 3.1: a line has at most 75 octets, its end not counted.
constexpr std::size_t longest_line = 75;

// The first character of a text that is not empty: `code_point` is below 0 and
// `size` 1 where the bytes are no UTF-8.
Character first_character(std::string_view text) {
    const Character character = character_at(text, 0);
    return character.size > 0 ? character : Character{-1, 1};
}

bool is_line_break(std::int32_t value) {
    return value == '\n' || value == '\r' || value == 0x85 || value == 0x2028 || value == 0x2029;
}

bool is_control(std::int32_t value) {
    return (value >= 0 && value < 0x20) || (value >= 0x7F && value < 0xA0);
}

std::size_t utf16_units(std::int32_t value) {
    return value > 0xFFFF ? 2 : 1;
}

}  // namespace

std::string clean(std::string_view text, Lines lines) {
    std::string result;
    result.reserve(text.size());
    while (!text.empty()) {
        Character character = first_character(text);
        if (text.starts_with("\r\n")) character.size = 2;
        if (is_line_break(character.code_point)) {
            result += lines == Lines::many ? '\n' : ' ';
        } else if (character.code_point == '\t') {
            result += ' ';
        } else if (character.code_point < 0) {
            result += replacement;
        } else if (!is_control(character.code_point)) {
            result += text.substr(0, character.size);
        }
        text.remove_prefix(character.size);
    }
    return result;
}

std::size_t utf16_length(std::string_view text) {
    std::size_t length = 0;
    while (!text.empty()) {
        const Character character = first_character(text);
        length += utf16_units(character.code_point);
        text.remove_prefix(character.size);
    }
    return length;
}

std::string shorten(std::string_view text, std::size_t limit) {
    std::size_t length = 0;
    // Bytes that fit together with the ellipsis, whose length is one unit.
    std::size_t kept = 0;
    for (std::size_t at = 0; at < text.size();) {
        if (length < limit) kept = at;
        const Character character = first_character(text.substr(at));
        length += utf16_units(character.code_point);
        at += character.size;
    }
    if (length <= limit) return std::string{text};
    return std::string{text.substr(0, kept)} += ellipsis;
}

std::string escape(std::string_view text) {
    std::string result;
    result.reserve(text.size() + text.size() / 8);
    for (const char sign : text) {
        if (sign == '\n') {
            result += "\\n";
            continue;
        }
        if (sign == '\\' || sign == ';' || sign == ',') result += '\\';
        result += sign;
    }
    return result;
}

std::string unescape(std::string_view text) {
    std::string result;
    result.reserve(text.size());
    bool is_escaped = false;
    for (const char sign : text) {
        if (!is_escaped && sign == '\\') {
            is_escaped = true;
            continue;
        }
        result += is_escaped && (sign == 'n' || sign == 'N') ? '\n' : sign;
        is_escaped = false;
    }
    return result;
}

void append_folded(std::string& feed, const ContentLines& lines) {
    for (const std::string& line : lines) {
        if (line.size() <= longest_line) {
            feed.append(line).append("\r\n");
            continue;
        }
        std::size_t used = 0;
        // What goes on one line is copied at once.
        std::size_t begin = 0;
        for (std::size_t at = 0; at < line.size();) {
            const std::size_t size = first_character(std::string_view{line}.substr(at)).size;
            if (used + size > longest_line) {
                feed.append(line, begin, at - begin).append("\r\n ");
                begin = at;
                used = 1;
            }
            used += size;
            at += size;
        }
        feed.append(line, begin);
        feed += "\r\n";
    }
}

}  // namespace stave::calendar
