// What the days of a plan load, week by week, where its sessions say how hard they are meant to
// be: effort x minutes, as compiler/loads/training_load.hpp has it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "backends/report/plan_report.hpp"
#include "compiler/loads/training_load.hpp"

namespace stave::report {

// Stands wherever the figures do.
inline constexpr std::string_view loads_are_contested =
    "Planned effort times reckoned minutes, in arbitrary units. Monotony, strain and ratios of "
    "recent to earlier load are contested: they change with how they are reckoned and foretell "
    "no injury. Compare one person with themselves only; no value is safe or dangerous.";

// After a week. What needs days that the plan does not have is left open.
struct PlanWeekLoad {
    std::int64_t week = 1;
    Ratio load;
    // Of seven whole days.
    std::optional<Ratio> monotony;
    std::optional<Ratio> strain;
    std::optional<Ratio> mean_7;
    std::optional<Ratio> mean_28;
    // Days 8 to 28 back.
    std::optional<Ratio> mean_before;
    Ratio average_7;
    Ratio average_28;
    // Coupled: the 28 days hold the 7. Uncoupled: the days before them. Of the averages.
    std::optional<Ratio> coupled;
    std::optional<Ratio> uncoupled;
    std::optional<Ratio> of_averages;
};

// Of everybody, or of one group with what is for everybody.
struct PlanLoads {
    std::string group;
    // Sessions that are held and say no effort, each once. Where there are any, no week can be
    // told.
    std::vector<std::string> unsaid;
    std::vector<PlanWeekLoad> weeks;
};

// One for each group; none where no session says an effort.
[[nodiscard]] std::vector<PlanLoads> plan_loads(const PlanView& view);

// The same as text, below the weeks; or "".
[[nodiscard]] std::string plan_loads_text(const PlanView& view);

}  // namespace stave::report
