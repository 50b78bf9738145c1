// `explain --floor`: who is at which station in each interval, where the queue forms, and what
// would make it shorter. Text prints on a page, for the wall.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "compiler/floor/floor.hpp"

namespace stave::report {

// A session with its rotas. What it points at must outlive it.
struct FloorView {
    const program::Session& session;
    std::vector<floors::BlockRota> rotas;
};

[[nodiscard]] std::string floor_text(std::span<const FloorView> views);

// The same as an array of sessions; people and stations count from 1, null for who waits.
[[nodiscard]] std::string floor_json(std::span<const FloorView> views);

}  // namespace stave::report
