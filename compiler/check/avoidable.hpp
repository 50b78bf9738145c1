// The nearest of all that somebody can be said to avoid.
#pragma once

#include <string>
#include <unordered_set>

#include "compiler/check/check.hpp"
#include "compiler/check/lines.hpp"

namespace stave::check {

// The demand, pattern or movement that is a slip or two away from the folded name, or empty.
// `movements` are those of the file's sessions, folded.
[[nodiscard]] std::string near_avoidable(const std::string& folded,
                                         const std::unordered_set<std::string>& movements,
                                         const Definitions& definitions, const Options& options);

}  // namespace stave::check
