// `explain --floor`: who is at which station in each interval, where the queue forms, and what
// would make it shorter. Text prints on a page, for the wall.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "compiler/floor/floor.hpp"

namespace stave::report {

// Somebody is not to do what a station asks for: their own card says what is done there. Why is
// nobody else's business. All three count from 0.
struct OwnWay {
    std::size_t person_id = 0;
    std::size_t block_id = 0;
    std::size_t item_id = 0;
};

// A session with its rotas. What it points at must outlive it.
struct FloorView {
    const program::Session& session;
    std::vector<floors::BlockRota> rotas;
    // Of the people, in order; empty where only their number is known.
    std::vector<std::string> names;
    // That was asked for, as 2026-12-03; or empty.
    std::string day;
    // Of the people whose names are known.
    std::vector<OwnWay> own_ways;
};

// Those of a team, which counts from 0; "" where names are not known. "Mara+Jonas" for two.
[[nodiscard]] std::string team_name(const FloorView& view, const floors::BlockRota& rota,
                                    std::size_t team);

// Whether one of the team has a way of their own at the station, which counts from 0.
[[nodiscard]] bool has_own_way(const FloorView& view, const floors::BlockRota& rota,
                               std::size_t team, std::size_t station);

// A rota as a table. Cells hold who is there: names, or runs of numbers ("1-3").
struct FloorTable {
    // For the name of a file: of the session, its day where that was asked for, the block.
    std::string file_name;
    std::string title;
    std::string block;
    std::string facts;
    std::vector<std::string> heads;
    std::vector<std::vector<std::vector<std::string>>> rows;
};

// Of all rotas that are laid out, in order.
[[nodiscard]] std::vector<FloorTable> floor_tables(std::span<const FloorView> views);

[[nodiscard]] std::string floor_text(std::span<const FloorView> views);

// The same as an array of sessions; people and stations count from 1, null for who waits. Names
// are those of the teams, where they are known; `own_ways` are pairs of a team and a station.
[[nodiscard]] std::string floor_json(std::span<const FloorView> views);

}  // namespace stave::report
