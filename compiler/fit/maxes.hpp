// Tests to what somebody can lift once, and from there to what they can lift more often.
#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/fit/working.hpp"
#include "compiler/program/program.hpp"

namespace stave::fit {

// The tests of one athlete as they stand on the day of one session.
class Maxes {
public:
    Maxes(const program::Program& program, const program::Athlete& athlete,
          std::optional<std::chrono::year_month_day> day)
        : program_(program), athlete_(athlete), day_(day) {}

    // Of the movement by its own or another name: by the newest test with a load, of several on
    // one day the one with the most. Nothing where there is none.
    [[nodiscard]] std::optional<Max> find(const std::string& name,
                                          std::optional<std::uint32_t> definition) const;

    // Of an amount that was covered in a time; null where there is none.
    [[nodiscard]] const program::Test* find_time(const std::string& name,
                                                 std::optional<std::uint32_t> definition,
                                                 const Quantity& amount) const;

    // More than 12 weeks before the session's day.
    [[nodiscard]] bool is_old(const program::Test& test) const;

    // A sentence about a later test of the movement, or one of the same pattern; or "".
    [[nodiscard]] std::string related(const std::string& name,
                                      std::optional<std::uint32_t> definition) const;

    // "on or before 2026-12-03", "of it".
    [[nodiscard]] std::string when() const;

private:
    [[nodiscard]] bool counts(const program::Test& test) const;
    [[nodiscard]] bool is_of(const program::Test& test, const std::string& folded,
                             std::optional<std::uint32_t> definition) const;
    [[nodiscard]] Max reckon(const program::Test& test) const;

    const program::Program& program_;
    const program::Athlete& athlete_;
    std::optional<std::chrono::year_month_day> day_;
};

// The share of a max that can be lifted so many times, which may end in a half; nothing where
// the chart or the equation does not reach so far.
[[nodiscard]] std::optional<Ratio> share_for_reps(Ratio reps, program::Estimate estimate);

}  // namespace stave::fit
