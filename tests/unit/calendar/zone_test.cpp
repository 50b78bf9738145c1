// Facts about zones: `zdump -v NAME` of the same IANA database (tzdata 2025b).
#include <gtest/gtest.h>

#include <algorithm>

#include "compiler/civil/zone.hpp"
#include "tests/unit/calendar/feed_testing.hpp"

namespace stave::calendar::testing {
namespace {

using civil::LocalTime;
using civil::LocalTimeKind;

void expect_meaning(std::string_view name, std::chrono::local_seconds time, LocalTimeKind kind,
                    std::chrono::sys_seconds instant) {
    const LocalTime meaning = civil::resolve(zone(name), time);
    EXPECT_EQ(meaning.kind, kind) << name;
    EXPECT_EQ(meaning.instant.time_since_epoch(), instant.time_since_epoch()) << name;
}

TEST(Resolve, an_ordinary_time_has_one_instant) {
    expect_meaning("Europe/Lisbon", local(2026, 12, 3, 18, 30), LocalTimeKind::unique,
                   utc(2026, 12, 3, 18, 30));
    expect_meaning("Europe/Lisbon", local(2026, 7, 3, 18, 30), LocalTimeKind::unique,
                   utc(2026, 7, 3, 17, 30));
    expect_meaning("Asia/Kolkata", local(2026, 7, 3, 3, 0), LocalTimeKind::unique,
                   utc(2026, 7, 2, 21, 30));
}

TEST(Resolve, a_skipped_time_gives_the_instant_of_the_jump) {
    expect_meaning("Europe/Lisbon", local(2026, 3, 29, 1, 0), LocalTimeKind::skipped,
                   utc(2026, 3, 29, 1, 0));
    expect_meaning("Europe/Lisbon", local(2026, 3, 29, 1, 30), LocalTimeKind::skipped,
                   utc(2026, 3, 29, 1, 0));
    expect_meaning("Europe/Lisbon", local(2026, 3, 29, 1, 59), LocalTimeKind::skipped,
                   utc(2026, 3, 29, 1, 0));
}

TEST(Resolve, the_edges_of_a_jump_are_unique) {
    expect_meaning("Europe/Lisbon", local(2026, 3, 29, 0, 59), LocalTimeKind::unique,
                   utc(2026, 3, 29, 0, 59));
    expect_meaning("Europe/Lisbon", local(2026, 3, 29, 2, 0), LocalTimeKind::unique,
                   utc(2026, 3, 29, 1, 0));
}

TEST(Resolve, a_repeated_time_gives_the_earlier_instant) {
    expect_meaning("Europe/Lisbon", local(2026, 10, 25, 1, 0), LocalTimeKind::repeated,
                   utc(2026, 10, 25, 0, 0));
    expect_meaning("Europe/Lisbon", local(2026, 10, 25, 1, 30), LocalTimeKind::repeated,
                   utc(2026, 10, 25, 0, 30));
    expect_meaning("Europe/Lisbon", local(2026, 10, 25, 2, 0), LocalTimeKind::unique,
                   utc(2026, 10, 25, 2, 0));
}

TEST(Resolve, half_hour_jumps_skip_and_repeat_half_an_hour) {
    expect_meaning("Australia/Lord_Howe", local(2026, 10, 4, 2, 15), LocalTimeKind::skipped,
                   utc(2026, 10, 3, 15, 30));
    expect_meaning("Australia/Lord_Howe", local(2026, 4, 5, 1, 45), LocalTimeKind::repeated,
                   utc(2026, 4, 4, 14, 45));
}

TEST(Resolve, a_day_that_was_left_out_is_skipped) {
    expect_meaning("Pacific/Apia", local(2011, 12, 30, 12, 0), LocalTimeKind::skipped,
                   utc(2011, 12, 30, 10, 0));
    expect_meaning("Pacific/Apia", local(2011, 12, 31, 0, 0), LocalTimeKind::unique,
                   utc(2011, 12, 30, 10, 0));
}

TEST(Resolve, two_jumps_in_two_days_are_told_apart) {
    const civil::Zone hasty{"Made/Up",
                            {{utc(1970, 1, 1, 0, 0), std::chrono::hours{0}, "A"},
                             {utc(2026, 5, 1, 10, 0), std::chrono::hours{1}, "B"},
                             {utc(2026, 5, 2, 10, 0), std::chrono::hours{2}, "C"}}};
    EXPECT_EQ(civil::resolve(hasty, local(2026, 5, 1, 10, 30)).instant, utc(2026, 5, 1, 10, 0));
    EXPECT_EQ(civil::resolve(hasty, local(2026, 5, 2, 11, 30)).instant, utc(2026, 5, 2, 10, 0));
    EXPECT_EQ(civil::resolve(hasty, local(2026, 5, 2, 11, 30)).kind, LocalTimeKind::skipped);
}

TEST(ToLocal, undoes_resolve) {
    const civil::Zone& lisbon = zone("Europe/Lisbon");
    for (const auto time : {local(2026, 1, 1, 0, 0), local(2026, 3, 29, 2, 0),
                            local(2026, 8, 1, 12, 0), local(2037, 12, 31, 23, 59)}) {
        EXPECT_EQ(civil::to_local(lisbon, civil::resolve(lisbon, time).instant), time);
    }
}

TEST(ZoneLoader, hands_out_each_zone_once_with_the_name_asked_for) {
    zones::ZoneLoader loader;
    const civil::Zone* const first = loader.find("Asia/Calcutta");
    ASSERT_NE(first, nullptr);
    EXPECT_EQ(first->name, "Asia/Calcutta");
    EXPECT_EQ(loader.find("Asia/Calcutta"), first);
    EXPECT_EQ(loader.finder()("Asia/Calcutta"), first);
}

TEST(ZoneLoader, covers_the_years_in_which_sessions_may_lie) {
    const std::vector<civil::ZonePeriod>& periods = zone("Europe/Lisbon").periods;
    EXPECT_LE(periods.front().begins, utc(1970, 1, 1, 0, 0));
    EXPECT_EQ(periods.back().begins, utc(2037, 10, 25, 1, 0));
    EXPECT_EQ(periods.back().abbreviation, "WET");
    EXPECT_FALSE(periods.back().daylight);
    EXPECT_TRUE(std::is_sorted(periods.begin(), periods.end(),
                               [](const auto& a, const auto& b) { return a.begins < b.begins; }));
}

TEST(ZoneLoader, knows_names_only_as_the_database_spells_them) {
    zones::ZoneLoader loader;
    for (const std::string_view name :
         {"", "europe/lisbon", "Lisbon", "Europe", "Europe/", "Europe//Lisbon", "/Europe/Lisbon",
          "../zoneinfo/Europe/Lisbon", "Europe/../Europe/Lisbon", "Europe/Lisbon\n", "posixrules",
          "localtime", "posix/Europe/Lisbon", "Europe/Lisbon ", "tzdata.zi"}) {
        EXPECT_EQ(loader.find(name), nullptr) << name;
    }
    EXPECT_EQ(loader.find(std::string(5000, 'A')), nullptr);
    EXPECT_EQ(loader.find(std::string_view("Europe/Lisbon\0", 14)), nullptr);
}

}  // namespace
}  // namespace stave::calendar::testing
