// Training load from session efforts: weeks of days, monotony and strain, means and averages.
//
//   session load = effort x minutes         Foster et al. (2001) JSCR 15:109-115: the session's
//                                           RPE, 0 to 10, times its minutes
//   monotony     = daily mean / deviation   Foster (1998) MSSE 30:1164-1168; seven days, rest
//   strain       = weekly load x monotony   days as 0
//   average      = load x L + (1 - L) x yesterday's, L = 2 / (N + 1)
//                                           Williams et al. (2017) BJSM 51:209-210
// The papers leave open which deviation is meant and how an average starts: here it is that of a
// sample (n - 1), and the first day's load. Loads are in arbitrary units. Nothing is said of
// what is much or little: such ratios are contested.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "compiler/quantity/ratio.hpp"

namespace stave::loads {

inline constexpr std::size_t week_days = 7;
// Of the two means and averages that are compared.
inline constexpr std::size_t acute_days = 7;
inline constexpr std::size_t chronic_days = 28;

// To a tenth. Efforts are 0 to 10, minutes at least 0; of a session longer than a day the day
// counts.
[[nodiscard]] Ratio session_load(Ratio effort, std::int64_t minutes);

struct WeekLoad {
    // Both exact.
    Ratio load;
    Ratio daily_mean;
    // To a millionth, the strain to a tenth. Monotony and strain are undefined where all days are
    // alike.
    Ratio deviation;
    std::optional<Ratio> monotony;
    std::optional<Ratio> strain;
};

// Of seven days, each the sum of its sessions.
[[nodiscard]] WeekLoad week_load(std::span<const Ratio, week_days> days);

// The exact mean of the last `count` days but for the `skipped` behind them; nothing where there
// are not so many.
[[nodiscard]] std::optional<Ratio> mean_of_last(std::span<const Ratio> days, std::size_t count,
                                                std::size_t skipped = 0);

// The exponentially weighted average after each day, to a millionth; `count` >= 1.
[[nodiscard]] std::vector<Ratio> weighted_averages(std::span<const Ratio> days, std::size_t count);

// To a millionth; nothing where one of them is missing, or the chronic one is 0.
[[nodiscard]] std::optional<Ratio> load_ratio(const std::optional<Ratio>& acute,
                                              const std::optional<Ratio>& chronic);

}  // namespace stave::loads
