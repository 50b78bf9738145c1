// A block of a session as a room: its stations, and what they take of the session's kit.
#pragma once

#include <string>
#include <vector>

#include "compiler/floor/rota.hpp"
#include "compiler/program/program.hpp"
#include "compiler/timeline/timeline.hpp"

namespace stave::floors {

// People that may stand in one room.
constexpr int most_in_room = 60;

// What an item needs and the kit line lacks, or has too few of for one team: `has` of `wants`.
struct Lack {
    std::uint32_t item_id = 0;
    std::string what;
    std::int64_t wants = 1;
    std::int64_t has = 0;
};

// Things of several lots that will do for a station count as one resource, "A or B". Where
// another station asks for some of these lots by weight, it keeps them, and the first takes the
// others; where none are left, it shares those of its first lot.
struct BlockRoom {
    Room room;
    std::int64_t people = 0;
    // People of a team; the last may have fewer.
    std::int64_t team_size = 1;
    // Without kit line: nothing limits. `missing` is taken as there for all; with something too
    // few there is no rota.
    std::vector<Lack> missing;
    std::vector<Lack> too_few;
    // From one change of stations to the next: of a block by the clock its interval, of another
    // the longest work with the rest behind it, without rests between rounds.
    Ratio beat_seconds;
};

// Circuits, stations and supersets have people at different stations at the same time.
[[nodiscard]] bool is_shared(const program::Block& block);

// For a shared block with an item, of a session with this timeline; people >= 1.
[[nodiscard]] BlockRoom make_room(const program::Program& program, const program::Session& session,
                                  std::size_t block_id, const timeline::Timeline& timeline,
                                  int people);

}  // namespace stave::floors
