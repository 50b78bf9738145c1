#include "backends/calendar/content_line.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
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

constexpr auto has_backslash = [] {
    std::array<bool, 256> signs{};
    for (const char sign : {'\n', '\\', ';', ','})
        signs.at(static_cast<unsigned char>(sign)) = true;
    return signs;
}();

bool is_line_break(std::int32_t value) {
    return value == '\n' || value == '\r' || value == 0x85 || value == 0x2028 || value == 0x2029;
}

bool is_control(std::int32_t value) {
    return (value >= 0 && value < 0x20) || (value >= 0x7F && value < 0xA0);
}

std::size_t utf16_units(std::int32_t value) {
    return value > 0xFFFF ? 2 : 1;
}

// Printable signs of ASCII and what else stays as it is: nearly all of a text.
class Plain {
public:
    explicit Plain(Lines lines) : also_(lines == Lines::many ? '\n' : ' ') {}

    // How many of them the text begins with.
    [[nodiscard]] std::size_t count(std::string_view text) const {
        constexpr std::size_t block = 64;
        std::size_t count = 0;
        while (count + block <= text.size() && are_all(text.substr(count, block)))
            count += block;
        while (count < text.size() && !is_other(text[count]))
            ++count;
        return count;
    }

private:
    [[nodiscard]] bool is_other(char sign) const {
        constexpr auto printable = static_cast<unsigned char>('~' - ' ');
        const bool is_beyond = static_cast<unsigned char>(sign - ' ') > printable;
        return is_beyond && sign != also_;
    }

    // Goes through all of them without a branch, so that compilers take many at once.
    [[nodiscard]] bool are_all(std::string_view text) const {
        unsigned char others = 0;
        for (const char sign : text)
            others |= static_cast<unsigned char>(is_other(sign));
        return others == 0;
    }

    char also_;
};

}  // namespace

std::string clean(std::string_view text, Lines lines) {
    const Plain plain(lines);
    std::string result;
    result.reserve(text.size());
    while (true) {
        const std::size_t count = plain.count(text);
        result += text.substr(0, count);
        text.remove_prefix(count);
        if (text.empty()) return result;
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
}

std::size_t utf16_length(std::string_view text) {
    // Each character has one first byte; those of four bytes are two units.
    std::size_t length = 0;
    for (const char sign : text) {
        const auto byte = static_cast<unsigned char>(sign);
        length += static_cast<std::size_t>((byte & 0xC0U) != 0x80U);
        length += static_cast<std::size_t>(byte >= 0xF0U);
    }
    return length;
}

std::string shorten(std::string text, std::size_t limit) {
    // No character has more units than bytes.
    if (text.size() <= limit) return text;
    std::size_t length = 0;
    // Bytes that fit together with the ellipsis, whose length is one unit.
    std::size_t kept = 0;
    for (std::size_t at = 0; at < text.size();) {
        if (length < limit) kept = at;
        const Character character = first_character(std::string_view(text).substr(at));
        length += utf16_units(character.code_point);
        at += character.size;
    }
    if (length > limit)
        text.replace(text.begin() + static_cast<std::ptrdiff_t>(kept), text.end(), ellipsis);
    return text;
}

std::string escape(std::string_view text) {
    std::string result(2 * text.size(), '\\');
    auto* place = result.data();
    for (const char sign : text) {
        // What stands there is a backslash already. No branch: nobody can guess where commas are.
        place += static_cast<std::ptrdiff_t>(has_backslash[static_cast<unsigned char>(sign)]);
        *place++ = sign == '\n' ? 'n' : sign;
    }
    result.resize(static_cast<std::size_t>(place - result.data()));
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

void append_line(std::string& feed, std::string_view line) {
    std::size_t room = longest_line;
    while (line.size() > room) {
        const std::string_view piece = whole_start(line, room);
        // What is no UTF-8 may begin nowhere.
        const std::size_t size = piece.empty() ? room : piece.size();
        feed.append(line.substr(0, size)).append("\r\n ");
        line.remove_prefix(size);
        // The blank counts.
        room = longest_line - 1;
    }
    feed.append(line).append("\r\n");
}

void append_folded(std::string& feed, const ContentLines& lines) {
    for (const std::string& line : lines)
        append_line(feed, line);
}

}  // namespace stave::calendar
