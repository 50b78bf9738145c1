// The arithmetic behind one load, for `explain` and for the card's footer.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/fit/racks.hpp"
#include "compiler/program/program.hpp"

namespace stave::fit {

// What a load hangs on. `written`: the coach has written it. `rising`: equal effort as the
// repetitions change from set to set.
enum class Basis : std::uint8_t {
    written,
    share_of_max,
    share_of_bodyweight,
    rep_max,
    reserve,
    rising,
};

// The greatest load for one repetition, of each implement, in kilograms.
struct Max {
    std::string movement;
    program::Test test;
    program::Estimate estimate = program::Estimate::epley;
    Ratio kilograms;
    // Of the seven equations, where all were asked.
    Ratio least;
    Ratio greatest;
};

struct Working {
    // Indices into the session; `set` is the first that the load is for.
    std::uint32_t block_id = 0;
    std::uint32_t item_id = 0;
    std::uint32_t set = 0;
    std::string movement;
    Basis basis = Basis::written;
    std::optional<Max> max;
    // By which the share for repetitions was found: `rep_max`, `reserve`, `rising`.
    std::optional<program::Estimate> shares;
    // Repetitions that the load could be lifted at most.
    std::optional<Ratio> reps;
    // Of the max, the body weight, or the first set's load.
    std::optional<Ratio> share;
    // Of each implement, in kilograms, before it is rounded.
    Ratio target;
    std::int64_t implements = 1;
    Made made;
};

}  // namespace stave::fit
