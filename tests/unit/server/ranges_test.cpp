// Sections are those of RFC 9110.
#include "backends/server/ranges.hpp"

#include <gtest/gtest.h>

#include <string>

namespace stave::server {
namespace {

// "first+length", "none" or "whole".
std::string asked(std::string_view value, std::uint64_t size) {
    const AskedRange range = asked_range(value, size);
    if (const auto* part = std::get_if<PartRange>(&range))
        return std::to_string(part->first) + "+" + std::to_string(part->length);
    return std::holds_alternative<NoRange>(range) ? "none" : "whole";
}

// The examples of section 14.1.2, of a representation of 10000 bytes.
TEST(Range, is_that_of_the_standard) {
    EXPECT_EQ(asked("bytes=0-499", 10000), "0+500");
    EXPECT_EQ(asked("bytes=500-999", 10000), "500+500");
    EXPECT_EQ(asked("bytes=-500", 10000), "9500+500");
    EXPECT_EQ(asked("bytes=9500-", 10000), "9500+500");
    EXPECT_EQ(asked("Bytes=0-0", 10000), "0+1");
}

TEST(Range, ends_with_the_file) {
    EXPECT_EQ(asked("bytes=9999-20000", 10000), "9999+1");
    EXPECT_EQ(asked("bytes=-20000", 10000), "0+10000");
    EXPECT_EQ(asked("bytes=0-99999999999999999999999999", 10000), "0+10000");
}

// Section 14.1.2: unsatisfiable.
TEST(Range, is_none_where_no_byte_is_there) {
    EXPECT_EQ(asked("bytes=10000-", 10000), "none");
    EXPECT_EQ(asked("bytes=10000-10001", 10000), "none");
    EXPECT_EQ(asked("bytes=-0", 10000), "none");
    EXPECT_EQ(asked("bytes=0-", 0), "none");
    EXPECT_EQ(asked("bytes=-1", 0), "none");
    EXPECT_EQ(asked("bytes=99999999999999999999999999-", 10000), "none");
}

// Section 14.2: a server may ignore the field; section 14.1.1: a last position before the
// first makes it no range at all.
TEST(Range, is_left_aside_where_it_is_not_understood) {
    for (const char* value :
         {"", "bytes", "bytes=", "bytes=-", "lines=1-2", "bytes=5-4", "bytes=a-b", "bytes=1-2-3",
          "bytes=0-0,-1", "bytes=--1", "bytes=+1-2", "bytes 0-1", "bytes=0 -1"})
        EXPECT_EQ(asked(value, 10000), "whole") << value;
}

}  // namespace
}  // namespace stave::server
