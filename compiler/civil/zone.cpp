#include "compiler/civil/zone.hpp"

#include <algorithm>
#include <cstddef>
#include <iterator>

namespace stave::civil {

namespace {

// No zone was ever further from UTC than this, nor jumped further: Samoa left
// out a whole day in 2011, from -10 to +14 hours.
constexpr std::chrono::hours reach{48};

using Periods = std::vector<ZonePeriod>;

// The period in force at `instant`; the first one also before its begin.
std::size_t period_at(const Periods& periods, std::chrono::sys_seconds instant) {
    const auto after =
        std::upper_bound(periods.begin(), periods.end(), instant,
                         [](std::chrono::sys_seconds value, const ZonePeriod& period) {
                             return value < period.begins;
                         });
    return after == periods.begin()
               ? 0
               : static_cast<std::size_t>(std::distance(periods.begin(), after)) - 1;
}

// Whether `instant` lies in period `period_id`.
bool holds(const Periods& periods, std::size_t period_id, std::chrono::sys_seconds instant) {
    return (period_id == 0 || instant >= periods[period_id].begins) &&
           (period_id + 1 == periods.size() || instant < periods[period_id + 1].begins);
}

}  // namespace

LocalTime resolve(const Zone& zone, std::chrono::local_seconds local) {
    const Periods& periods = zone.periods;
    const std::chrono::sys_seconds as_utc{local.time_since_epoch()};
    const std::size_t first = period_at(periods, as_utc - reach);
    const std::size_t last = period_at(periods, as_utc + reach);

    LocalTime result;
    int meanings = 0;
    for (std::size_t period_id = first; period_id <= last; ++period_id) {
        const std::chrono::sys_seconds instant = as_utc - periods[period_id].offset;
        if (!holds(periods, period_id, instant)) continue;
        if (meanings == 0) result.instant = instant;
        ++meanings;
    }
    if (meanings > 1) result.kind = LocalTimeKind::repeated;
    if (meanings > 0) return result;

    // Skipped: before the jump's end on the new clock, past its begin on the old.
    result.kind = LocalTimeKind::skipped;
    for (std::size_t period_id = first + 1; period_id <= last; ++period_id) {
        result.instant = periods[period_id].begins;
        if (as_utc - periods[period_id].offset < periods[period_id].begins) break;
    }
    return result;
}

std::chrono::local_seconds to_local(const Zone& zone, std::chrono::sys_seconds instant) {
    const ZonePeriod& period = zone.periods[period_at(zone.periods, instant)];
    return std::chrono::local_seconds{(instant + period.offset).time_since_epoch()};
}

}  // namespace stave::civil
