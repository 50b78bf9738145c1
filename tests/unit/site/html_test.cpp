#include "backends/site/html.hpp"

#include <gtest/gtest.h>

namespace stave::site {
namespace {

// HTML Living Standard, section 13.3 (escaping a string), and " for attributes.
TEST(Escaped, leaves_nothing_that_opens_or_closes) {
    EXPECT_EQ(escaped("<script>a & b</script>"), "&lt;script&gt;a &amp; b&lt;/script&gt;");
    EXPECT_EQ(escaped("\" onload=\"x"), "&quot; onload=&quot;x");
    EXPECT_EQ(escaped("it's 5 × 8 – Δ"), "it's 5 × 8 – Δ");
}

// HTML Living Standard, section 13.2.3.5: control characters and noncharacters are errors.
TEST(Escaped, replaces_what_a_page_cannot_hold) {
    EXPECT_EQ(escaped(std::string_view("a\0b", 3)), "a\uFFFDb");
    EXPECT_EQ(escaped("a\x07\x7F\r"), "a\uFFFD\uFFFD\uFFFD");
    EXPECT_EQ(escaped("a\xC2\x85"), "a\uFFFD");
    EXPECT_EQ(escaped("a\xFF"), "a\uFFFD");
    EXPECT_EQ(escaped("\xEF\xB7\x90\xEF\xBF\xBE"), "\uFFFD\uFFFD");
    EXPECT_EQ(escaped("\xF0\x9F\xBF\xBF"), "\uFFFD");
    EXPECT_EQ(escaped("a\n\tb"), "a\n\tb");
}

// Unicode, UAX 9, table 4: what turns the direction until it is closed.
TEST(Escaped, drops_marks_that_turn_what_follows) {
    EXPECT_EQ(escaped("a\u202Eb\u202C\u2066c\u2069"), "abc");
    EXPECT_EQ(isolated("\u05D0 <b>"), "<bdi>\u05D0 &lt;b&gt;</bdi>");
}

TEST(Anchor, escapes_its_address_and_hides_what_is_read_out) {
    EXPECT_EQ(anchor({"https://a.example/?a&b", "<b>x</b>"}),
              "<a href=\"https://a.example/?a&amp;b\"><b>x</b></a>");
    EXPECT_EQ(anchor({"x.pdf", "Card", "A<"}),
              "<a href=\"x.pdf\">Card<span class=\"unseen\"> <bdi>A&lt;</bdi></span></a>");
}

}  // namespace
}  // namespace stave::site
