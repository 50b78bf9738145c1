// Athletes who are in two sessions at one time: in two squads, two plans, or a plan and a
// session that stands by itself.
#pragma once

#include <chrono>
#include <cstddef>
#include <vector>

#include "compiler/analysis/analyse.hpp"
#include "compiler/analysis/issues.hpp"

namespace stave::analysis {

// The sessions that are held and have a time, with how long they take.
class Bookings {
public:
    void add(const Issue& issue, std::size_t issue_id);

    // Warns of two lines, or sessions with a time of their own, once, on the first day on which
    // they share an athlete. Slots of one plan for the same people are told of as plan-overlap,
    // and times without a zone are not compared to those with one. `snapshot.people` is known.
    void report(Snapshot& snapshot);

private:
    struct Booking {
        bool has_zone = false;
        std::chrono::sys_seconds begin;
        std::chrono::sys_seconds end;
        std::size_t issue_id = 0;
    };
    std::vector<Booking> bookings_;
};

}  // namespace stave::analysis
