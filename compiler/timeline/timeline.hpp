// Expansion: turns a checked session into the list of things an athlete does,
// in order, each with a start offset and a length in seconds.
//
// A session that reaches this step has no unknown units and no unmatched lists,
// so nothing is diagnosed here. What the model had to assume to give a length
// is listed, and printed with every result.
//
// Conventions: rest after the last set of an item that ends a block and after
// the last round is not counted; `8 each side` is 8 left and 8 right; tempo X
// counts 1 s; a range counts its upper end; all four tempo phases count in
// every repetition. Changing stations and setting up take no time. A block of as
// many rounds as possible takes its time and is unrolled for one round; a block
// that does something every so often takes all its intervals, the last one whole;
// the time off behind its last station is not counted.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/program/program.hpp"
#include "compiler/timeline/volume_load.hpp"

namespace stave::timeline {

// `more_rounds`: what is left of a block of as many rounds as possible behind its
// first round.
enum class EntryKind : std::uint8_t { work, rest, more_rounds };
enum class Side : std::uint8_t { both, left, right };
// `interval`: until the next interval begins.
enum class RestPlace : std::uint8_t { sets, rounds, movements, sides, interval, blocks };

// One set of one movement on one side, or one rest.
struct Entry {
    EntryKind kind = EntryKind::work;
    // Offsets from the session's start, exact to the millisecond; length >= 0.
    Ratio start_seconds;
    Ratio length_seconds;
    // Indices into the session: blocks, the block's items, the item's parts.
    std::uint32_t block_id = 0;
    std::uint32_t item_id = 0;
    std::uint32_t part_id = 0;
    // From 0. In a block by rounds `set` is the round.
    std::uint32_t set = 0;
    Side side = Side::both;
    RestPlace rest_place = RestPlace::sets;
    // How much of the length is rest inside the set, between the parts of a cluster say.
    Ratio pause_seconds;
};

// Assumptions in the order in which they first shaped the result.
enum class AssumptionKind : std::uint8_t {
    // A bare number of a movement nobody defined counts reps.
    counted_as_reps,
    default_rep_seconds,
    default_step_cadence,
    default_breath_seconds,
    default_carry_speed,
    default_travel_speed,
    default_count_seconds,
    max_seconds,
    explosive_counts_one_second,
    range_counts_upper_end,
    kilocalorie_seconds,
    at_least_counts_least,
    best_of_seconds,
    build_up_sets,
    open_ladder_counts_first,
    several_directions,
    one_load_counted,
    rest_as_needed,
    walk_back_pace,
    one_round_counted,
    no_rest_said,
    no_change_time,
};

// One assumption and the movements it touched, each once, in order.
struct Assumption {
    AssumptionKind kind = AssumptionKind::no_change_time;
    std::vector<std::string> movements;
};

struct BlockTotal {
    Ratio start_seconds;
    Ratio length_seconds;
    std::int64_t sets = 0;
};

// What a movement adds up to over the session, by unit and side. `both` counts
// work without sides. Seconds are those of work, tempo and holds included.
struct MovementTotal {
    std::string name;
    // As names are compared.
    std::string folded_name;
    Unit unit = Unit::reps;
    std::int64_t sets = 0;
    Ratio both;
    Ratio left;
    Ratio right;
    // Sets of `max`, of which nobody knows beforehand how many it will be.
    std::int64_t open_sets = 0;
    // What is counted may become more: "5 or more", a ladder that climbs on.
    bool is_least = false;
    // Some of it is one round of as many as possible.
    bool has_open_rounds = false;
    Ratio work_seconds;
    // Sets that add to `volume`.
    std::int64_t weighed_sets = 0;
    VolumeLoad volume;
};

struct Timeline {
    std::vector<Entry> entries;
    std::vector<BlockTotal> blocks;
    std::vector<MovementTotal> movements;
    std::vector<Assumption> assumptions;
    Ratio total_seconds;
    Ratio work_seconds;
    std::int64_t sets = 0;
};

// Of all movements together.
[[nodiscard]] VolumeLoad volume_load(const Timeline& timeline);

// Whole minutes of the session, rounded up; at least 1.
[[nodiscard]] std::int64_t minutes(const Timeline& timeline);

[[nodiscard]] Timeline expand(const program::Program& program, const program::Session& session);

}  // namespace stave::timeline
