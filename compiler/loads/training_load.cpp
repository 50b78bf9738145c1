#include "compiler/loads/training_load.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace stave::loads {

namespace {

constexpr std::int64_t precision = 1'000'000;
constexpr std::int64_t tenth = 10;

// Squares of loads leave 64 bits where the loads themselves do not. A long double holds 18
// digits, more than are kept of anything here.
long double real(Ratio value) {
    return static_cast<long double>(value.numerator()) /
           static_cast<long double>(value.denominator());
}

Ratio rounded_real(long double value) {
    return {std::llround(value * static_cast<long double>(precision)), precision};
}

Ratio sum_of(std::span<const Ratio> days) {
    return std::accumulate(days.begin(), days.end(), Ratio(0));
}

}  // namespace

Ratio session_load(Ratio effort, std::int64_t minutes) {
    constexpr std::int64_t minutes_of_day = 24L * 60;
    return rounded(effort * Ratio(std::min(minutes, minutes_of_day)), tenth);
}

WeekLoad week_load(std::span<const Ratio, week_days> days) {
    constexpr auto count = static_cast<std::int64_t>(week_days);
    WeekLoad week;
    week.load = sum_of(days);
    week.daily_mean = week.load / Ratio(count);
    long double squares = 0;
    for (const Ratio day : days) {
        const long double off = real(day - week.daily_mean);
        squares += off * off;
    }
    if (squares == 0) return week;
    const long double deviation = std::sqrt(squares / (count - 1));
    week.deviation = rounded_real(deviation);
    week.monotony = rounded_real(real(week.daily_mean) / deviation);
    week.strain = rounded_product(week.load, *week.monotony, tenth);
    return week;
}

std::optional<Ratio> mean_of_last(std::span<const Ratio> days, std::size_t count,
                                  std::size_t skipped) {
    if (count == 0 || days.size() < count + skipped) return std::nullopt;
    const auto counted = days.subspan(days.size() - skipped - count, count);
    return sum_of(counted) / Ratio(static_cast<std::int64_t>(count));
}

std::vector<Ratio> weighted_averages(std::span<const Ratio> days, std::size_t count) {
    const Ratio weight(2, static_cast<std::int64_t>(count) + 1);
    std::vector<Ratio> averages;
    averages.reserve(days.size());
    for (const Ratio day : days) {
        if (averages.empty()) {
            averages.push_back(rounded(day, precision));
            continue;
        }
        const Ratio before = averages.back();
        averages.push_back(rounded(before + (day - before) * weight, precision));
    }
    return averages;
}

std::optional<Ratio> load_ratio(const std::optional<Ratio>& acute,
                                const std::optional<Ratio>& chronic) {
    if (!acute || !chronic || *chronic == Ratio(0)) return std::nullopt;
    return rounded(*acute / *chronic, precision);
}

}  // namespace stave::loads
