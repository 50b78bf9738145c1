// Sections are those of RFC 9110.
#include "backends/server/dates.hpp"

#include <gtest/gtest.h>

namespace stave::server {
namespace {

using namespace std::chrono_literals;
using std::chrono::sys_days;
using std::chrono::sys_seconds;

constexpr sys_seconds sample = sys_days{1994y / 11 / 6} + 8h + 49min + 37s;
constexpr sys_seconds now = sys_days{2026y / 11 / 26} + 12h;

// The three examples of section 5.6.7.
TEST(Date, is_written_in_the_fixed_form_and_read_in_three) {
    EXPECT_EQ(date_text(sample), "Sun, 06 Nov 1994 08:49:37 GMT");
    EXPECT_EQ(read_date("Sun, 06 Nov 1994 08:49:37 GMT", now), sample);
    EXPECT_EQ(read_date("Sunday, 06-Nov-94 08:49:37 GMT", now), sample);
    EXPECT_EQ(read_date("Sun Nov  6 08:49:37 1994", now), sample);
    EXPECT_EQ(read_date("Wed Nov 16 08:49:37 1994", now), sample + 240h);
}

// Section 5.6.7: two digits that seem to be more than 50 years ahead mean the past.
TEST(Date, of_two_digits_is_at_most_fifty_years_ahead) {
    EXPECT_EQ(read_date("Sunday, 06-Nov-76 08:49:37 GMT", now),
              sys_days{2076y / 11 / 6} + 8h + 49min + 37s);
    EXPECT_EQ(read_date("Sunday, 06-Nov-77 08:49:37 GMT", now),
              sys_days{1977y / 11 / 6} + 8h + 49min + 37s);
}

TEST(Date, is_none_where_anything_is_wrong) {
    for (const char* text :
         {"", "yesterday", "Sun, 06 Nov 1994 08:49:37", "Sun, 06 Nov 1994 08:49:37 CET",
          "Sun, 6 Nov 1994 08:49:37 GMT", "Sun, 31 Feb 1994 08:49:37 GMT",
          "Sun, 06 Nov 1994 24:00:00 GMT", "Sun, 06 Nov 1994 08:60:37 GMT",
          "Sun, 06 Nov 1994 08:49:61 GMT", "sun, 06 nov 1994 08:49:37 gmt",
          "Sun, 06 Nov 1994 08:49:37 GMT, Sun, 06 Nov 1994 08:49:37 GMT",
          "Sun, -6 Nov 1994 08:49:37 GMT", "Sun Nov 6 08:49:37 1994"})
        EXPECT_FALSE(read_date(text, now).has_value()) << text;
    EXPECT_TRUE(read_date("Sat, 31 Dec 2016 23:59:60 GMT", now).has_value());
}

TEST(Date, comes_back_as_it_was_written) {
    for (sys_seconds time = sys_days{1970y / 1 / 1}; time < sys_days{2100y / 1 / 1};
         time += 1234567s)
        ASSERT_EQ(read_date(date_text(time), now), time) << date_text(time);
}

}  // namespace
}  // namespace stave::server
