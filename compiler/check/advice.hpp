// What a good colleague would say of a session that is right in form: warnings of
// what is usually a slip or a risk, with the source of each rule.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::check {

// All sessions, one by one and in their order.
void advise(const program::Program& program, DiagnosticSink& sink);

// The most repetitions that a table allows at a share of the tested max, and the
// share its row is for, both in the NSCA Training Load Chart (1 to 10 reps: 100, 95,
// 93, 90, 87, 85, 83, 80, 77, 75 %; 12 reps: 70 %). Reps 0 below the last row.
struct ChartRow {
    int reps = 0;
    int percent = 0;
};
[[nodiscard]] ChartRow chart_row(Ratio percent);

}  // namespace stave::check
