// `explain --loads` and `explain --who`: how each athlete's loads were worked out, and what
// they do of what is written. For the coach alone: it tells what athletes avoid and weigh.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "compiler/fit/fit.hpp"

namespace stave::report {

// A session as one athlete does it. What it points at must outlive it.
struct FittedView {
    const program::Session& session;
    const program::Athlete& athlete;
    const std::vector<fit::Choice>& choices;
    const std::vector<fit::Working>& workings;
};

// For each session and athlete a line for each load, with its arithmetic.
[[nodiscard]] std::string loads_text(std::span<const FittedView> views);

// For each session a row for each movement and a column of who does it, something else, or
// nothing, and why.
[[nodiscard]] std::string who_text(std::span<const FittedView> views);

}  // namespace stave::report
