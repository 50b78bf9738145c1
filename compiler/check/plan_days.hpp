// The days of a plan: whether what is cancelled, moved or held once lies within it, and
// whether anything is held there.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// From its first to its last day.
[[nodiscard]] bool is_in_plan(const program::Plan& plan, std::chrono::year_month_day date);

// Sets the plan's first and last day and its weeks: `from` says when it begins, and it or `weeks`
// how long it runs. False after a problem has been reported.
bool find_range(const syntax::Line& from, const syntax::Line* weeks, program::Plan& plan,
                DiagnosticSink& sink);

// The slots that the plan has on a day, with days off and moves left out; those of one
// time alone where a time is given. Indices of `plan.slots`.
[[nodiscard]] std::vector<std::size_t> slots_on(const program::Plan& plan,
                                                std::chrono::year_month_day date,
                                                std::optional<std::chrono::minutes> clock);

// What is known of a plan whose lines have problems, so that nothing is told that may only follow
// from one of them.
struct PlanKnown {
    // Its first and its last day.
    bool has_days = false;
    // Every day and time on which it holds something.
    bool has_slots = false;
    // All lines that move a day, wherever they stand.
    std::vector<const syntax::Days*> moves = {};
};

// One line each, added to the plan if nothing is wrong; false after a problem has been
// reported.
bool add_days_off(const syntax::Line& line, program::Plan& plan, const PlanKnown& known,
                  DiagnosticSink& sink);
bool add_move(const syntax::Line& line, program::Plan& plan, const PlanKnown& known,
              DiagnosticSink& sink);

}  // namespace stave::check
