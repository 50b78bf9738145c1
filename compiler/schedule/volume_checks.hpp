// The sets that a plan has of each pattern of movement, week by week.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/schedule/days.hpp"

namespace stave::schedule {

inline constexpr std::size_t pattern_count = 0
#define STAVE_PATTERN(id, word) +1
#include "grammar/keywords.def"
    ;

// Sets of a week by pattern, in the order of the patterns. A set counts for the first
// pattern of its movement; warm-ups and cool-downs are left out.
using PatternSets = std::array<std::int64_t, pattern_count>;

// From week 1 on, as planned, whatever is cancelled or moved: the sessions of one group and
// those for everybody, without those that are held once. `days` are those of the one plan.
[[nodiscard]] std::vector<PatternSets> weekly_sets(const program::Program& program,
                                                   std::span<const Occurrence> days,
                                                   const std::string& group);

// The groups of a plan, in the order of its slots; where it has none, one empty name.
[[nodiscard]] std::vector<std::string> groups_of(const program::Plan& plan);

// Warns of a week that has more than a third more sets of a pattern, and four at least, than
// any week before it, once all sessions that take turns have had theirs. `days` are those of the
// one plan.
void check_volume(const program::Program& program, std::span<const Occurrence> days,
                  DiagnosticSink& sink);

}  // namespace stave::schedule
