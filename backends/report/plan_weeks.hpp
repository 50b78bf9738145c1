// What the table of a plan and its JSON have in common: the days in their weeks, and what
// has grown to what.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "backends/report/plan_report.hpp"
#include "compiler/schedule/volume_checks.hpp"

namespace stave::report {

struct GrownTo {
    std::string target;
    // "72.5 %", "12-10-8 reps".
    std::string values;
};

struct PlanWeekRows {
    std::int64_t week = 1;
    bool is_lighter = false;
    // 2/5 for 40 % less.
    Ratio less;
    // Indices of the view's days.
    std::vector<std::size_t> days;
    std::vector<GrownTo> growths;
    // Of each group: its name and its sets.
    std::vector<std::pair<std::string, schedule::PatternSets>> sets;
};

// Weeks in which nothing is planned are left out.
[[nodiscard]] std::vector<PlanWeekRows> plan_weeks(const PlanView& view);

// "Thursday".
[[nodiscard]] std::string_view weekday_text(std::chrono::year_month_day date);

}  // namespace stave::report
