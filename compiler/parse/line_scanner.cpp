#include "compiler/parse/line_scanner.hpp"

#include <algorithm>
#include <array>

namespace stave::parse {

namespace {

using namespace std::string_view_literals;

// Blanks beyond ASCII: no-break, narrow no-break and ideographic space, zero
// width marks, and the line separators that no editor counts as lines.
constexpr std::array wide_blanks{"\u00A0"sv, "\u202F"sv, "\u3000"sv, "\u2002"sv, "\u2003"sv,
                                 "\u2009"sv, "\u200A"sv, "\u200B"sv, "\u200E"sv, "\u200F"sv,
                                 "\uFEFF"sv, "\u2028"sv, "\u2029"sv, "\u0085"sv};
constexpr std::string_view wide_colon = "\uFF1A";

bool is_ascii_blank(char c) {
    return c == ' ' || c == '\t';
}

std::uint32_t blank_size_at(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    if (begin >= end) return 0;
    if (is_ascii_blank(text[begin])) return 1;
    if (static_cast<unsigned char>(text[begin]) < 0x80) return 0;
    const std::string_view rest = text.substr(begin, end - begin);
    for (const std::string_view blank : wide_blanks) {
        if (rest.starts_with(blank)) return static_cast<std::uint32_t>(blank.size());
    }
    return 0;
}

std::uint32_t blank_size_before(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    if (begin >= end) return 0;
    if (is_ascii_blank(text[end - 1])) return 1;
    if (static_cast<unsigned char>(text[end - 1]) < 0x80) return 0;
    const std::string_view before = text.substr(begin, end - begin);
    for (const std::string_view blank : wide_blanks) {
        if (before.ends_with(blank)) return static_cast<std::uint32_t>(blank.size());
    }
    return 0;
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// Where a remark begins, or the line's end. Behind the first colon it needs no blank.
std::uint32_t find_remark(std::string_view text, Span line) {
    std::uint32_t colon_end = line.end;
    for (std::uint32_t i = line.begin; i < line.end; ++i) {
        if (colon_end == line.end) {
            const std::string_view rest = text.substr(i, line.end - i);
            if (text[i] == ':') colon_end = i + 1;
            if (rest.starts_with(wide_colon)) {
                colon_end = i + static_cast<std::uint32_t>(wide_colon.size());
            }
        }
        if (text[i] != '#') continue;
        const bool opens =
            i == line.begin || i == colon_end || blank_size_before(text, line.begin, i) > 0;
        const bool closes = i + 1 == line.end || blank_size_at(text, i + 1, line.end) > 0;
        if (opens && closes) return i;
    }
    return line.end;
}

void find_colon(std::string_view text, ScannedLine& line) {
    const Span content = line.content;
    for (std::uint32_t i = content.begin; i < content.end; ++i) {
        if (text.substr(i, content.end - i).starts_with(wide_colon)) {
            line.colon = Span{i, i + static_cast<std::uint32_t>(wide_colon.size())};
            return;
        }
        if (text[i] != ':') continue;
        const bool between_digits = i > content.begin && i + 1 < content.end &&
                                    is_digit(text[i - 1]) && is_digit(text[i + 1]);
        if (!between_digits) {
            line.colon = Span{i, i + 1};
            return;
        }
        if (!line.clock_colon) line.clock_colon = i;
    }
}

}  // namespace

Span trim(std::string_view text, Span span) {
    while (const std::uint32_t size = blank_size_at(text, span.begin, span.end))
        span.begin += size;
    while (const std::uint32_t size = blank_size_before(text, span.begin, span.end)) {
        span.end -= size;
    }
    return span;
}

namespace {

constexpr std::array commas{","sv, "\uFF0C"sv, "\u3001"sv, "\u060C"sv};

}  // namespace

std::uint32_t comma_size_at(std::string_view text) {
    const auto* const found = std::ranges::find_if(
        commas, [text](std::string_view comma) { return text.starts_with(comma); });
    return found == commas.end() ? 0 : static_cast<std::uint32_t>(found->size());
}

std::uint32_t comma_size_before(std::string_view text) {
    const auto* const found = std::ranges::find_if(
        commas, [text](std::string_view comma) { return text.ends_with(comma); });
    return found == commas.end() ? 0 : static_cast<std::uint32_t>(found->size());
}

Span find_comma(std::string_view text, Span span) {
    for (std::uint32_t i = span.begin; i < span.end; ++i) {
        const std::uint32_t size = comma_size_at(text.substr(i, span.end - i));
        if (size > 0) return {i, i + size};
    }
    return {span.end, span.end};
}

Span find_last_comma(std::string_view text, Span span) {
    for (std::uint32_t end = span.end; end > span.begin; --end) {
        const std::uint32_t size = comma_size_before(text.substr(span.begin, end - span.begin));
        if (size > 0) return {end - size, end};
    }
    return {span.end, span.end};
}

std::string_view up_to_comma(std::string_view text) {
    return text.substr(0, find_comma(text, {0, static_cast<std::uint32_t>(text.size())}).begin);
}

bool has_comma(std::string_view text) {
    return up_to_comma(text).size() < text.size();
}

ScannedLine scan_line(std::string_view text, Span line) {
    ScannedLine result;
    const Span trimmed = trim(text, line);
    // A # right at the start needs no blank behind it.
    const bool remark_alone = trimmed.begin < trimmed.end && text[trimmed.begin] == '#';
    const std::uint32_t remark = remark_alone ? trimmed.begin : find_remark(text, trimmed);
    result.remark = {remark, trimmed.end};
    result.content = trim(text, {trimmed.begin, remark});
    find_colon(text, result);
    if (result.colon) {
        result.head = trim(text, {result.content.begin, result.colon->begin});
        result.body = trim(text, {result.colon->end, result.content.end});
    }
    return result;
}

}  // namespace stave::parse
