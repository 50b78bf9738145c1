// Escapes and folding: RFC 5545, sections 3.3.11 and 3.1.
#include "backends/calendar/content_line.hpp"

#include <gtest/gtest.h>

#include <string>

#include "tests/unit/calendar/feed_testing.hpp"

namespace stave::calendar::testing {
namespace {

std::string folded(const std::string& line) {
    std::string text;
    append_folded(text, {line});
    return text;
}

TEST(Clean, turns_every_kind_of_line_break_into_a_line_feed) {
    EXPECT_EQ(clean("a\r\nb\rc\nd\u0085e\u2028f\u2029g", Lines::many), "a\nb\nc\nd\ne\nf\ng");
    EXPECT_EQ(clean("\r\r\n\n", Lines::many), "\n\n\n");
}

TEST(Clean, keeps_one_line_texts_on_one_line) {
    EXPECT_EQ(clean("Row\r\nBEGIN:VALARM\nx", Lines::one), "Row BEGIN:VALARM x");
}

TEST(Clean, drops_control_characters) {
    EXPECT_EQ(clean(std::string_view("a\0b\x01\x1B[1mc\x7F", 10), Lines::many), "ab[1mc");
    EXPECT_EQ(clean("a\u0080\u009Bb\tc", Lines::many), "ab c");
    EXPECT_EQ(clean("4 × 5\u00A0kg", Lines::many), "4 × 5\u00A0kg");
}

TEST(Clean, replaces_bytes_that_are_no_utf_8) {
    EXPECT_EQ(clean("a\xFF"
                    "b\xC3",
                    Lines::many),
              "a\uFFFDb\uFFFD");
    EXPECT_EQ(clean("\xED\xA0\x80", Lines::many), "\uFFFD\uFFFD\uFFFD");
}

TEST(Utf16Length, counts_two_units_beyond_the_basic_plane) {
    EXPECT_EQ(utf16_length(""), 0U);
    EXPECT_EQ(utf16_length("aé–\n"), 4U);
    EXPECT_EQ(utf16_length("🚣🚣"), 4U);
}

TEST(Shorten, leaves_texts_within_the_limit) {
    EXPECT_EQ(shorten("", 3), "");
    EXPECT_EQ(shorten("äöü", 3), "äöü");
    EXPECT_EQ(shorten("🚣a", 3), "🚣a");
}

TEST(Shorten, cuts_between_characters_and_marks_the_cut) {
    EXPECT_EQ(shorten("äöüß", 3), "äö…");
    EXPECT_EQ(shorten("🚣🚣", 3), "🚣…");
    EXPECT_EQ(shorten("a🚣🚣", 3), "a…");
    EXPECT_EQ(shorten("ab", 1), "…");
}

TEST(Escape, escapes_what_rfc_5545_names_and_nothing_else) {
    EXPECT_EQ(escape("a\\b;c,d\ne:f\"g'"), "a\\\\b\\;c\\,d\\ne:f\"g'");
}

TEST(Fold, leaves_75_octets_on_one_line) {
    EXPECT_EQ(folded(std::string(75, 'x')), std::string(75, 'x') + "\r\n");
    EXPECT_EQ(folded(std::string(76, 'x')), std::string(75, 'x') + "\r\n x\r\n");
}

TEST(Fold, never_cuts_a_character) {
    // Every number of octets before, so that each character meets the edge.
    for (std::size_t shift = 0; shift < 80; ++shift) {
        for (const std::string_view character : {"é", "–", "🚣"}) {
            std::string line(shift, 'x');
            for (int count = 0; count < 60; ++count)
                line += character;
            const std::string text = folded(line);
            for (const std::string& piece : raw_lines(text)) {
                EXPECT_LE(piece.size(), 75U);
                EXPECT_EQ(clean(piece, Lines::one), piece);
            }
            EXPECT_EQ(lines(text), std::vector<std::string>{line});
        }
    }
}

TEST(Fold, does_not_hang_on_bytes_that_are_no_utf_8) {
    const std::string line(200, '\xFF');
    EXPECT_EQ(lines(folded(line)), std::vector<std::string>{line});
}

}  // namespace
}  // namespace stave::calendar::testing
