// Which mends leave no choice.
#pragma once

#include <vector>

#include "compiler/analysis/analyse.hpp"
#include "compiler/diagnostics/diagnostic.hpp"

namespace stave::driver {

struct SureFix {
    Code code{};
    // By place; at least one.
    std::vector<Edit> edits;
};

// Fixes that are the only one of their error, change nothing of what is to be done, and lie
// in the file itself; of those that overlap, the first.
[[nodiscard]] std::vector<SureFix> sure_fixes(const analysis::Snapshot& snapshot);

}  // namespace stave::driver
