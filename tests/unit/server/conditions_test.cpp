// Sections are those of RFC 9110.
#include "backends/server/conditions.hpp"

#include <gtest/gtest.h>

namespace stave::server {
namespace {

using namespace std::chrono_literals;
using std::chrono::sys_days;

constexpr auto changed = sys_days{1994y / 10 / 29} + 19h + 43min + 31s;
constexpr auto now = sys_days{2026y / 11 / 26} + 12h;
constexpr const char* same = "Sat, 29 Oct 1994 19:43:31 GMT";
constexpr const char* before = "Sat, 29 Oct 1994 19:43:30 GMT";
constexpr const char* after = "Sat, 29 Oct 1994 19:43:32 GMT";
constexpr Validators own{"\"xyzzy\"", changed};

Outcome outcome(std::vector<Field> fields) {
    return conditions({"GET", "/", "HTTP/1.1", std::move(fields)}, own, now);
}

TEST(Conditions, hold_where_there_are_none) {
    EXPECT_EQ(outcome({}), Outcome::proceed);
}

// Section 13.1.1: strong comparison.
TEST(IfMatch, fails_where_no_tag_is_the_same) {
    for (const char* value : {"\"xyzzy\"", "*", "\"a\", \"xyzzy\"", "\"a,b\",\"xyzzy\""})
        EXPECT_EQ(outcome({{"If-Match", value}}), Outcome::proceed) << value;
    for (const char* value : {"\"abc\"", "W/\"xyzzy\"", "xyzzy", "", "\"a, \"xyzzy\"", "\"XYZZY\""})
        EXPECT_EQ(outcome({{"If-Match", value}}), Outcome::failed) << value;
}

// Section 13.1.2: weak comparison.
TEST(IfNoneMatch, finds_the_tag_anywhere_in_the_list) {
    for (const char* value :
         {"\"xyzzy\"", "W/\"xyzzy\"", "*", " * ", "\"xyzzy\", \"r2d2xxxx\", \"c3piozzzz\"",
          "W/\"a\", W/\"xyzzy\", W/\"c\"", "\"a,\",\"xyzzy\""})
        EXPECT_EQ(outcome({{"If-None-Match", value}}), Outcome::not_modified) << value;
    for (const char* value : {"\"r2d2\"", "xyzzy", "", "\"xyzzy", "w/\"xyzzy\"", "W/ \"xyzzy\""})
        EXPECT_EQ(outcome({{"If-None-Match", value}}), Outcome::proceed) << value;
    // Section 5.3: several lines of a list are one.
    EXPECT_EQ(outcome({{"If-None-Match", "\"a\""}, {"if-none-match", "\"xyzzy\""}}),
              Outcome::not_modified);
}

// Section 13.1.3.
TEST(IfModifiedSince, compares_dates) {
    EXPECT_EQ(outcome({{"If-Modified-Since", same}}), Outcome::not_modified);
    EXPECT_EQ(outcome({{"If-Modified-Since", after}}), Outcome::not_modified);
    EXPECT_EQ(outcome({{"If-Modified-Since", before}}), Outcome::proceed);
    EXPECT_EQ(outcome({{"If-Modified-Since", "Sat Oct 29 19:43:31 1994"}}), Outcome::not_modified);
    // "MUST ignore" what is no date, or more than one member.
    EXPECT_EQ(outcome({{"If-Modified-Since", "soon"}}), Outcome::proceed);
    EXPECT_EQ(outcome({{"If-Modified-Since", same}, {"If-Modified-Since", same}}),
              Outcome::proceed);
}

// Section 13.1.4.
TEST(IfUnmodifiedSince, fails_where_the_file_is_newer) {
    EXPECT_EQ(outcome({{"If-Unmodified-Since", same}}), Outcome::proceed);
    EXPECT_EQ(outcome({{"If-Unmodified-Since", before}}), Outcome::failed);
    EXPECT_EQ(outcome({{"If-Unmodified-Since", "soon"}}), Outcome::proceed);
}

// Section 13.2.2, step by step.
TEST(Conditions, are_taken_in_their_order) {
    // 1 before 2: If-Unmodified-Since counts only without If-Match.
    EXPECT_EQ(outcome({{"If-Unmodified-Since", before}, {"If-Match", "\"xyzzy\""}}),
              Outcome::proceed);
    // 1 before 3.
    EXPECT_EQ(outcome({{"If-None-Match", "\"xyzzy\""}, {"If-Match", "\"abc\""}}), Outcome::failed);
    // 2 before 3.
    EXPECT_EQ(outcome({{"If-None-Match", "*"}, {"If-Unmodified-Since", before}}), Outcome::failed);
    // 3 before 4: If-Modified-Since counts only without If-None-Match.
    EXPECT_EQ(outcome({{"If-Modified-Since", same}, {"If-None-Match", "\"abc\""}}),
              Outcome::proceed);
}

// Section 13.1.5: strong comparison, and no date that is not strong.
TEST(IfRange, holds_for_the_very_tag) {
    const auto holds = [](const char* value) {
        return range_condition({"GET", "/", "HTTP/1.1", {{"If-Range", value}}}, own);
    };
    EXPECT_TRUE(range_condition({"GET", "/", "HTTP/1.1", {}}, own));
    EXPECT_TRUE(holds("\"xyzzy\""));
    for (const char* value : {"W/\"xyzzy\"", "\"abc\"", "*", same, "\"abc\", \"xyzzy\""})
        EXPECT_FALSE(holds(value)) << value;
}

}  // namespace
}  // namespace stave::server
