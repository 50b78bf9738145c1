// A plan as a table: week by week, which session is held when and how long it takes, what
// has grown to what, the sets of each pattern of movement, and what the days load where sessions
// say an effort.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "compiler/program/program.hpp"
#include "compiler/schedule/days.hpp"

namespace stave::report {

// One plan of a program with its days, in their order, and the minutes that each session
// takes as it has grown by then. All must outlive the view.
struct PlanView {
    const program::Program& program;
    std::span<const schedule::Occurrence> days;
    std::span<const std::int64_t> minutes;
};

// Empty for a view without days.
[[nodiscard]] std::string plan_text(const PlanView& view);

// An array of plans, dates as ISO 8601 writes them, exact values as strings ("3/2").
[[nodiscard]] std::string plan_json(std::span<const PlanView> views);

}  // namespace stave::report
