// A zone's VTIMEZONE (RFC 5545, section 3.6.5), or the finding that it has none
// that every calendar program reads alike.
//
// Regular is a zone whose clock never changes or changes twice a year by the
// same two rules ("the last Sunday of March, 01:00"). Some calendar programs
// read no other form rightly; events of other zones are written in UTC.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "backends/calendar/content_line.hpp"
#include "compiler/civil/zone.hpp"

namespace stave::calendar {

// One change of the clock, every year.
struct YearlyChange {
    std::chrono::month month{1};
    std::chrono::weekday weekday{0};
    // 1 to 4: that weekday from the month's start; -1: the last one.
    int which = -1;
    // On the clock that is being changed.
    std::chrono::seconds time_of_day{0};
    std::chrono::seconds offset_from{0};
    std::chrono::seconds offset_to{0};
    std::string abbreviation;

    friend bool operator==(const YearlyChange&, const YearlyChange&) = default;
};

// What a regular zone does. `standard` alone: the clock stays at its offset_to.
// With `daylight`, the one whose clock is ahead.
struct ZoneRules {
    YearlyChange standard;
    std::optional<YearlyChange> daylight;
};

// The rules that hold from the start of `first_year` to the end of
// civil::last_year; nothing for a zone that is irregular in that time.
// Independent of the last event's date, so that a growing feed keeps its form.
[[nodiscard]] std::optional<ZoneRules> find_rules(const civil::Zone& zone,
                                                  std::chrono::year first_year);

void append_vtimezone(ContentLines& lines, std::string_view zone_name, const ZoneRules& rules);

}  // namespace stave::calendar
