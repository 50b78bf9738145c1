// The lines of levels and groups in the places of those of their movements.
#pragma once

#include <string>
#include <vector>

#include "compiler/program/program.hpp"

namespace stave::schedule {

// What the group does takes the place of what others do.
void choose_group(program::Session& session, const std::string& group);

// The same for who is in these squads: `group A` is for the squads "A" and "group A",
// `level 2` for "level 2". The names are folded.
void choose_squads(program::Session& session, const std::vector<std::string>& folded_squads);

// Whose lines stand below movements of the session, as cards name them: "Group B", "Level 2".
[[nodiscard]] std::vector<std::string> named_in(const program::Session& session);

// The same for one of them.
void choose_lines(program::Session& session, const std::string& name);

// What is left for those who are in no group and on no level.
void remove_lines(program::Session& session);

}  // namespace stave::schedule
