// The place where the grammar stopped in a body, seen as a person would see it:
// what stands there, what stands before it. Shared by the functions that word
// failures.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/parse/line_scanner.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::parse {

// What the failing line looks like around the place where the grammar stopped.
struct Scene {
    std::string_view text;
    grammar::BodyKind kind;
    Span head;
    Span body;
    Code code;
    std::uint32_t offset;
    Span token;

    [[nodiscard]] std::string_view slice(Span span) const {
        return text.substr(span.begin, span.size());
    }
    [[nodiscard]] std::string word() const { return std::string(slice(token)); }
    [[nodiscard]] std::string_view rest() const { return slice({offset, body.end}); }
    [[nodiscard]] std::string_view before() const {
        std::string_view left = slice({body.begin, offset});
        while (left.ends_with(' '))
            left.remove_suffix(1);
        return left;
    }
    // Whether a comma of any form is the last that stands before.
    [[nodiscard]] bool ends_with_comma() const { return comma_size_before(before()) > 0; }
    // Offset of the end of what stands before, blanks left out.
    [[nodiscard]] std::uint32_t before_end() const {
        return body.begin + static_cast<std::uint32_t>(before().size());
    }
    // The last comma of any form in the body before the place.
    [[nodiscard]] std::optional<Span> comma() const;
    // Where the detail begins in which the grammar stopped: behind the comma.
    [[nodiscard]] std::uint32_t detail_begin() const {
        const std::optional<Span> last = comma();
        return last ? trim(text, {last->end, body.end}).begin : body.begin;
    }
    // From there to the next comma of any form, and to the next comma or load.
    [[nodiscard]] Span until_comma(std::uint32_t begin) const;
    [[nodiscard]] Span until_comma_or_load(std::uint32_t begin) const;
    // That detail, and what stands from the place on.
    [[nodiscard]] Span detail() const { return until_comma(detail_begin()); }
    [[nodiscard]] Span clause() const { return until_comma(offset); }
    // Blanks at the line's begin.
    [[nodiscard]] std::string_view indent() const;
    // Behind the line's last character, its remark included.
    [[nodiscard]] std::uint32_t line_end() const;
};

[[nodiscard]] constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// Of ASCII, or a byte of any character beyond it.
[[nodiscard]] constexpr bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           static_cast<unsigned char>(c) >= 0x80;
}

// Letters, blanks, hyphens and apostrophes alone.
[[nodiscard]] bool is_words(std::string_view text);

[[nodiscard]] Diagnostic make(Code code, Span span, std::vector<std::string> arguments = {},
                              std::vector<Fix> fixes = {});
[[nodiscard]] Fix fix(std::string label, Span span, std::string text);

// The number, word or sign at the offset, at most to `end`.
[[nodiscard]] Span token_at(std::string_view text, std::uint32_t offset, std::uint32_t end);
// Digits, points and colons between digits from the place on.
[[nodiscard]] Span number_at(std::string_view text, std::uint32_t begin, std::uint32_t end);
// Where the number begins that ends at `end`; `end` where there is none.
[[nodiscard]] std::uint32_t number_begin(std::string_view text, std::uint32_t begin,
                                         std::uint32_t end);
// The number, range or list that ends at `end` ("8", "7 to 8", "5-3-1"); empty where
// there is none.
[[nodiscard]] Span figures_before(std::string_view text, std::uint32_t begin, std::uint32_t end);

// A number and the unit behind it, both empty where they are missing.
struct Measured {
    Span number;
    Span unit;

    [[nodiscard]] Span whole() const { return unit.empty() ? number : cover(number, unit); }
};
[[nodiscard]] Measured measured_at(std::string_view text, std::uint32_t begin, std::uint32_t end);
// The dimension's name in keywords.def ("mass", "time"), or "" for no unit.
[[nodiscard]] std::string_view unit_dimension(std::string_view word);

// Whether it is one of the words, in any letter case.
[[nodiscard]] bool is_one_of(std::string_view said, std::span<const std::string_view> words);
// Whether the text begins with these words, in any letter case, and they end there.
[[nodiscard]] bool begins_with_words(std::string_view text, std::string_view words);
// Whether its last words are these.
[[nodiscard]] bool ends_with_words(std::string_view text, std::string_view words);
// "8" for "eight", to twelve; "" for anything else.
[[nodiscard]] std::string_view number_word(std::string_view word);

// The whole number that the digits begin with, 0 for none.
[[nodiscard]] int to_number(std::string_view digits);

// Deletes the span and writes its words (`said`) as a note on the line below.
[[nodiscard]] Fix move_to_note(const Scene& scene, Span span, std::string_view said);
// Makes two lines of one head: what stands behind the gap moves to the second.
[[nodiscard]] Fix split_line(const Scene& scene, Span gap);

// At most 40 bytes, cut between characters.
[[nodiscard]] std::string_view shortened(std::string_view text);
// Whether the text begins with the first words of a detail.
[[nodiscard]] bool opens_detail(std::string_view text);
// Whether it begins with the first words of what a block says, or with its number.
[[nodiscard]] bool opens_clause(std::string_view text);

}  // namespace stave::parse
