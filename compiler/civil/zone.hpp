// Time zones as plain data: the changes of a zone's offset, read once by the
// driver (which alone touches the disk) and passed down as values.
//
// The data's source is the machine's IANA time zone database.
#pragma once

#include <chrono>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace stave::civil {

// From `begins` on, local time is UTC + offset.
struct ZonePeriod {
    std::chrono::sys_seconds begins;
    std::chrono::seconds offset{0};
    // As the database abbreviates it: "WET", "+03".
    std::string abbreviation;
    bool daylight = false;
};

// One zone over the years below. Periods are in order and never empty; the first
// begins at or before the span and is taken to hold before its begin too.
struct Zone {
    std::string name;
    std::vector<ZonePeriod> periods;
};

// Answers null for a name the database lacks. The zone lives as long as the
// finder's owner.
using ZoneFinder = std::function<const Zone*(std::string_view name)>;

// First and last calendar year in which a session may lie. Beyond 2037 the
// database's compiled form promises no daylight-saving changes.
inline constexpr int first_year = 1970;
inline constexpr int last_year = 2037;

enum class LocalTimeKind { unique, skipped, repeated };

struct LocalTime {
    LocalTimeKind kind = LocalTimeKind::unique;
    // unique: the instant. repeated: the earlier of the two. skipped: the
    // instant of the jump over it.
    std::chrono::sys_seconds instant;
};

// What a wall-clock time means in a zone.
[[nodiscard]] LocalTime resolve(const Zone& zone, std::chrono::local_seconds local);

// What the clocks of a zone show at an instant.
[[nodiscard]] std::chrono::local_seconds to_local(const Zone& zone,
                                                  std::chrono::sys_seconds instant);

}  // namespace stave::civil
