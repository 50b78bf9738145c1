// Who does a session.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "compiler/program/program.hpp"

namespace stave::fit {

// Those that its `for` line names, themselves or by a squad; without one those of the squad
// that its plan's group is called like; else all athletes of the program. Indices, rising.
[[nodiscard]] std::vector<std::uint32_t> people_of(const program::Program& program,
                                                   const program::Session& session);

// Whether a squad is called like the group of a plan: else everybody comes.
[[nodiscard]] bool has_squad(const program::Program& program, const std::string& group);

// The folded names of the squads that somebody is in.
[[nodiscard]] std::vector<std::string> squads_of(const program::Program& program,
                                                 std::uint32_t athlete_id);

}  // namespace stave::fit
