// What each movement adds up to over a session.
#pragma once

#include <functional>
#include <vector>

#include "compiler/timeline/pace.hpp"
#include "compiler/timeline/timeline.hpp"

namespace stave::timeline {

// One part of a set, done on one side.
struct DonePart {
    const program::Block& block;
    const program::Item& item;
    const program::Part& part;
    std::size_t set = 0;
    Side side = Side::both;
    // The second side of a set is no set of its own.
    bool is_new_set = true;
    Ratio work_seconds;
};

// Adds the part to its movement's row: one for each movement and dimension, for counts
// one for each unit.
void add_to_totals(const program::Program& program, const DonePart& done,
                   std::vector<MovementTotal>& totals, const AssumptionNote& note);

}  // namespace stave::timeline
