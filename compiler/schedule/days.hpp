// The days of a plan: from its slots, weeks, days off and moves to the days on which its
// sessions are held, and how far growth has come on each.
//
// Conventions: weeks are counted from the plan's first day. Growth makes one step in each
// week that is not lighter, beginning with none in week 1; a lighter week stands where the
// week before it stood. A wave of N weeks makes N - 1 steps, and the next begins so many
// steps higher as the plan says.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/program/program.hpp"

namespace stave::schedule {

// `away`: nobody expected a session. `cancelled`: people did.
enum class Standing : std::uint8_t { held, moved, away, cancelled };

// One session of a plan on one of its days. Indices are those of the program. All days of a
// plan are held at once, so what its lines say is asked of them: see below.
struct Occurrence {
    std::uint32_t plan_id = 0;
    std::uint32_t slot_id = 0;
    std::uint32_t session_id = 0;
    // The day that the plan's weeks give it, by which it is known whatever becomes of it.
    std::chrono::year_month_day planned;
    // When it is held: planned, or where it has been moved to.
    std::chrono::year_month_day date;
    std::chrono::minutes clock{0};
    // With the plan's zone; nothing without one, or where the time does not exist once.
    std::optional<std::chrono::sys_seconds> instant;
    // Of the plan, from 1.
    std::int32_t week = 1;
    // How many steps of growth it has behind it.
    std::int32_t steps = 0;
    Standing standing = Standing::held;
    bool is_lighter = false;
};

// Where in its plan it is.
[[nodiscard]] program::PlanWeek week_of(const program::Program& program,
                                        const Occurrence& occurrence);

// What the plan's week does less, from 1: 2/5 for 40 %; zero in a week that is not lighter.
[[nodiscard]] Ratio less_in(const program::Plan& plan, std::int64_t week);

// Why it is not held as planned; or empty. Stands in the program.
[[nodiscard]] std::string_view reason_of(const program::Program& program,
                                         const Occurrence& occurrence);

// Whether the line speaks of the week, from 1.
[[nodiscard]] bool lightens(const program::LighterWeek& lighter, std::int64_t week);

// Whether people meet.
[[nodiscard]] bool is_on(const Occurrence& occurrence);

// In the order of their dates and times, those of one time in the order of their slots.
// Every plan of the program is sound. Instants are left out.
[[nodiscard]] std::vector<Occurrence> lay_days(const program::Program& program,
                                               std::uint32_t plan_id);

// "20261203", and the group and, where the plan has several sessions of one name for the
// same people on that day, the time: "20261203-squad-a-1830".
[[nodiscard]] std::string day_key(const program::Program& program, const Occurrence& occurrence);

}  // namespace stave::schedule
