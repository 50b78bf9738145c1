// Form of dates with times: RFC 5545, section 3.3.5.
#include "backends/calendar/stamp.hpp"

#include <gtest/gtest.h>

#include "tests/unit/calendar/feed_testing.hpp"

namespace stave::calendar::testing {
namespace {

TEST(Stamp, writes_the_forms_of_rfc_5545) {
    EXPECT_EQ(local_stamp(local(1998, 1, 18, 23, 0)), "19980118T230000");
    EXPECT_EQ(utc_stamp(utc(1998, 1, 19, 7, 0)), "19980119T070000Z");
}

TEST(Stamp, reads_what_it_writes) {
    const std::chrono::sys_seconds time = utc(2028, 2, 29, 23, 59) + std::chrono::seconds{58};
    EXPECT_EQ(parse_utc_stamp(utc_stamp(time)), time);
}

TEST(Stamp, refuses_every_other_text) {
    for (const std::string_view text :
         {"", "20261203T183000", "20261203T183000Z ", "2026-12-03T18:30Z", "20261303T183000Z",
          "20270229T183000Z", "20261203T240000Z", "20261203T186000Z", "20261203T183060Z",
          "20261203t183000Z", "+0261203T183000Z"}) {
        EXPECT_FALSE(parse_utc_stamp(text)) << text;
    }
}

}  // namespace
}  // namespace stave::calendar::testing
