// Growth: what a plan adds to a session's loads, amounts, sets or rounds by a given week.
//
// Conventions: a value after k steps is what the session says plus k steps, not
// compounded, and no more than the limit. A share is of what the session says. What comes
// of a share, or of a step in another unit, is rounded to what can be loaded or counted:
// loads to 0.5 of their unit, counts to whole ones, times to 5 s from a minute on,
// distances to 10 m from 100 m on, ties down (common practice, no source). Sets and rounds
// that come new are like the last one. Warm-up and cool-down do not grow.
#pragma once

#include <cstdint>
#include <vector>

#include "compiler/program/program.hpp"

namespace stave::schedule {

// The values of a session that a growth changes, as they are after so many steps, in the
// order of its lines. Sets and rounds are counted in reps. Empty where it changes none.
[[nodiscard]] std::vector<Quantity> grown_values(const program::Session& session,
                                                 const program::Growth& growth, std::int64_t steps);

// Changes them. A number that has grown out of all bounds (`is_beyond`) stays there.
void grow(program::Session& session, const program::Growth& growth, std::int64_t steps);

// More than a session may hold: over 2000 kg, 100 % of a max, 100 sets or rounds, 100 000
// of a count, 24 h. Nothing is added to what is there.
[[nodiscard]] bool is_beyond(const program::Growth& growth, const Quantity& value);

}  // namespace stave::schedule
