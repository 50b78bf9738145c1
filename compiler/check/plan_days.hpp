// The days of a plan: whether what is cancelled, moved or held once lies within it, and
// whether anything is held there.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// From its first to its last day.
[[nodiscard]] bool is_in_plan(const program::Plan& plan, std::chrono::year_month_day date);

// The slots that the plan has on a day, with days off and moves left out; those of one
// time alone where a time is given. Indices of `plan.slots`.
[[nodiscard]] std::vector<std::size_t> slots_on(const program::Plan& plan,
                                                std::chrono::year_month_day date,
                                                std::optional<std::chrono::minutes> clock);

// One line each, added to the plan if nothing is wrong; false after a problem has been
// reported. The plan has its days and all its slots.
bool add_days_off(const syntax::Line& line, program::Plan& plan, DiagnosticSink& sink);
bool add_move(const syntax::Line& line, program::Plan& plan, DiagnosticSink& sink);

}  // namespace stave::check
