// A session of a plan as it is held on one of its days: dated, grown, lightened, and with
// the doses of its group.
#pragma once

#include "compiler/program/program.hpp"
#include "compiler/schedule/days.hpp"

namespace stave::schedule {

// Where the session names no series, the plan's name is one.
[[nodiscard]] program::Session held_session(const program::Program& program,
                                            const Occurrence& occurrence);

}  // namespace stave::schedule
