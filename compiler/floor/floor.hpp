// The blocks of a session with so many people in one room.
#pragma once

#include <optional>
#include <vector>

#include "compiler/floor/advice.hpp"
#include "compiler/floor/room.hpp"
#include "compiler/floor/rota.hpp"

namespace stave::floors {

// Visits of all rotas of a run, beyond which no more are laid out.
constexpr std::size_t most_visits_of_run = 60'000;

struct BlockRota {
    std::size_t block_id = 0;
    BlockRoom made;
    Advice advice;
    // None where there are too many visits, or too few things for one team.
    std::optional<Rota> rota;
};

// Of the shared blocks, in order. `visits_left` is what may still be laid out, and is lessened.
[[nodiscard]] std::vector<BlockRota> rotas(const program::Program& program,
                                           const program::Session& session,
                                           const timeline::Timeline& timeline, int people,
                                           std::size_t& visits_left);

}  // namespace stave::floors
