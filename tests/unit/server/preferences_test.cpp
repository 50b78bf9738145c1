// Sections are those of RFC 9110.
#include "backends/server/preferences.hpp"

#include <gtest/gtest.h>

namespace stave::server {
namespace {

// Section 12.4.2, and the examples of 12.5.3.
TEST(WantsGzip, weighs_the_list) {
    for (const char* list :
         {"gzip", "compress, gzip", "*", "compress;q=0.5, gzip;q=1.0",
          "gzip;q=1.0, identity; q=0.5, *;q=0", "GZIP", "x-gzip", "gzip;q=0.001", " gzip ; q=0.5 ",
          "deflate, gzip, br", "gzip, identity", "*;q=0, gzip", "gzip;q=1.", ",,gzip"})
        EXPECT_TRUE(wants_gzip(list)) << list;
    for (const char* list : {"", "identity", "gzip;q=0", "gzip;q=0.000", "*;q=0", "br",
                             "identity, gzip;q=0.5", "*, gzip;q=0", "gzip;q=2", "gzip;q=0.0001",
                             "gzip;q=x", "gzip;level=9", "gzipped", ";q=1", "gzip;q=1.001"})
        EXPECT_FALSE(wants_gzip(list)) << list;
}

TEST(Preferences, keep_their_order_and_leave_out_what_is_none) {
    const auto found = preferences("de-AT, pt;q=0.25, ;, x;q=, el;q=0.125");
    ASSERT_EQ(found.size(), 3U);
    EXPECT_EQ(found[0].value, "de-at");
    EXPECT_EQ(found[0].weight, 1000);
    EXPECT_EQ(found[1].weight, 250);
    EXPECT_EQ(found[2].weight, 125);
}

}  // namespace
}  // namespace stave::server
