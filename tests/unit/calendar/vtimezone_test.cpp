// Rules of zones: the Zone and Rule lines of the IANA database's source files
// (tzdata 2025b); form of VTIMEZONE: RFC 5545, section 3.6.5.
#include "backends/calendar/vtimezone.hpp"

#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

#include "tests/unit/calendar/feed_testing.hpp"

namespace stave::calendar::testing {
namespace {

// A zone that no country has: at UTC until its changes.
civil::Zone made_up(std::vector<civil::ZonePeriod> changes) {
    civil::Zone zone{"Made/Up", std::move(changes)};
    zone.periods.insert(zone.periods.begin(), {utc(1970, 1, 1, 0, 0), {}, "UTC"});
    return zone;
}

// The zone's VTIMEZONE in lines; empty for an irregular zone.
std::string vtimezone(std::string_view name, int first_year) {
    const auto rules = find_rules(zone(name), std::chrono::year{first_year});
    if (!rules) return {};
    ContentLines lines;
    append_vtimezone(lines, name, *rules);
    std::string text;
    for (const std::string& line : lines)
        text += (text.empty() ? "" : "\n") + line;
    return text;
}

TEST(Vtimezone, a_zone_with_summer_time_has_one_rule_for_each_change) {
    EXPECT_EQ(vtimezone("Europe/Lisbon", 2026),
              "BEGIN:VTIMEZONE\n"
              "TZID:Europe/Lisbon\n"
              "BEGIN:STANDARD\n"
              "DTSTART:19701025T020000\n"
              "RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU\n"
              "TZOFFSETFROM:+0100\n"
              "TZOFFSETTO:+0000\n"
              "TZNAME:WET\n"
              "END:STANDARD\n"
              "BEGIN:DAYLIGHT\n"
              "DTSTART:19700329T010000\n"
              "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU\n"
              "TZOFFSETFROM:+0000\n"
              "TZOFFSETTO:+0100\n"
              "TZNAME:WEST\n"
              "END:DAYLIGHT\n"
              "END:VTIMEZONE");
}

TEST(Vtimezone, counts_weekdays_from_the_month_start_where_the_rule_does) {
    EXPECT_EQ(vtimezone("America/New_York", 2026),
              "BEGIN:VTIMEZONE\n"
              "TZID:America/New_York\n"
              "BEGIN:STANDARD\n"
              "DTSTART:19701101T020000\n"
              "RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU\n"
              "TZOFFSETFROM:-0400\n"
              "TZOFFSETTO:-0500\n"
              "TZNAME:EST\n"
              "END:STANDARD\n"
              "BEGIN:DAYLIGHT\n"
              "DTSTART:19700308T020000\n"
              "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU\n"
              "TZOFFSETFROM:-0500\n"
              "TZOFFSETTO:-0400\n"
              "TZNAME:EDT\n"
              "END:DAYLIGHT\n"
              "END:VTIMEZONE");
}

TEST(Vtimezone, half_hour_changes_south_of_the_equator) {
    EXPECT_EQ(vtimezone("Australia/Lord_Howe", 2026),
              "BEGIN:VTIMEZONE\n"
              "TZID:Australia/Lord_Howe\n"
              "BEGIN:STANDARD\n"
              "DTSTART:19700405T020000\n"
              "RRULE:FREQ=YEARLY;BYMONTH=4;BYDAY=1SU\n"
              "TZOFFSETFROM:+1100\n"
              "TZOFFSETTO:+1030\n"
              "TZNAME:+1030\n"
              "END:STANDARD\n"
              "BEGIN:DAYLIGHT\n"
              "DTSTART:19701004T020000\n"
              "RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=1SU\n"
              "TZOFFSETFROM:+1030\n"
              "TZOFFSETTO:+1100\n"
              "TZNAME:+11\n"
              "END:DAYLIGHT\n"
              "END:VTIMEZONE");
}

TEST(Vtimezone, a_zone_without_changes_has_one_standard_time) {
    EXPECT_EQ(vtimezone("Asia/Tokyo", 2026),
              "BEGIN:VTIMEZONE\n"
              "TZID:Asia/Tokyo\n"
              "BEGIN:STANDARD\n"
              "DTSTART:19700101T000000\n"
              "TZOFFSETFROM:+0900\n"
              "TZOFFSETTO:+0900\n"
              "TZNAME:JST\n"
              "END:STANDARD\n"
              "END:VTIMEZONE");
    EXPECT_NE(vtimezone("Asia/Kolkata", 2026).find("TZOFFSETTO:+0530"), std::string::npos);
    EXPECT_NE(vtimezone("America/Sao_Paulo", 2026).find("TZOFFSETTO:-0300"), std::string::npos);
    EXPECT_NE(vtimezone("UTC", 2026).find("TZOFFSETTO:+0000"), std::string::npos);
}

TEST(Vtimezone, winter_time_is_standard_also_where_the_law_says_otherwise) {
    // The database takes Irish summer time for standard and winter for the exception.
    const std::string dublin = vtimezone("Europe/Dublin", 2026);
    EXPECT_NE(dublin.find("BEGIN:DAYLIGHT\nDTSTART:19700329T010000"), std::string::npos) << dublin;
}

TEST(FindRules, irregular_zones_have_none) {
    // Ramadan; the day after the last Thursday; the Saturday before a Sunday;
    // the Friday before the last Sunday; the first Sunday from the second day on.
    for (const std::string_view name : {"Africa/Casablanca", "Africa/Cairo", "America/Nuuk",
                                        "Asia/Jerusalem", "America/Santiago"}) {
        EXPECT_EQ(vtimezone(name, 2026), "") << name;
    }
}

TEST(FindRules, judges_by_the_years_asked_for) {
    // Brazil changed its clocks until February 2019, the United States their rule in 2007.
    EXPECT_EQ(vtimezone("America/Sao_Paulo", 2018), "");
    EXPECT_NE(vtimezone("America/Sao_Paulo", 2020), "");
    EXPECT_EQ(vtimezone("America/New_York", 2006), "");
    EXPECT_NE(vtimezone("America/New_York", 2007), "");
}

TEST(FindRules, holds_in_the_last_year_alone) {
    EXPECT_EQ(vtimezone("Europe/Lisbon", civil::last_year), vtimezone("Europe/Lisbon", 2026));
    EXPECT_NE(vtimezone("Australia/Sydney", civil::last_year), "");
}

TEST(FindRules, a_clock_that_does_not_come_back_is_irregular) {
    const civil::Zone drifting = made_up({{utc(2037, 3, 29, 1, 0), std::chrono::hours{1}, "A"},
                                          {utc(2037, 10, 25, 1, 0), std::chrono::hours{2}, "B"}});
    EXPECT_FALSE(find_rules(drifting, std::chrono::year{2037}));
}

TEST(FindRules, the_hour_of_the_change_is_part_of_the_rule) {
    // The last Sundays of March and October, as in Lisbon; in 2037 an hour later.
    std::vector<civil::ZonePeriod> changes{{utc(2036, 3, 30, 1, 0), std::chrono::hours{1}, "A"},
                                           {utc(2036, 10, 26, 1, 0), std::chrono::hours{0}, "B"},
                                           {utc(2037, 3, 29, 1, 0), std::chrono::hours{1}, "A"},
                                           {utc(2037, 10, 25, 1, 0), std::chrono::hours{0}, "B"}};
    EXPECT_TRUE(find_rules(made_up(changes), std::chrono::year{2036}));
    changes[2].begins += std::chrono::hours{1};
    EXPECT_FALSE(find_rules(made_up(changes), std::chrono::year{2036}));
}

TEST(FindRules, a_new_abbreviation_alone_is_no_change) {
    const auto rules =
        find_rules(made_up({{utc(2030, 5, 1, 0, 0), {}, "GMT"}}), std::chrono::year{2026});
    ASSERT_TRUE(rules);
    EXPECT_FALSE(rules->daylight);
    EXPECT_EQ(rules->standard.abbreviation, "UTC");
}

}  // namespace
}  // namespace stave::calendar::testing
