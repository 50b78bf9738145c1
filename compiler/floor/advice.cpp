#include "compiler/floor/advice.hpp"

#include <algorithm>

namespace stave::floors {

namespace {

// The most units that one visit takes of it.
std::int64_t most_units(const Room& room, std::uint32_t resource_id) {
    std::int64_t most = 1;
    for (const auto& needs : room.needs) {
        for (const Need& need : needs)
            if (need.resource_id == resource_id) most = std::max(most, need.units);
    }
    return most;
}

std::optional<Buying> buying_for(Room room, const std::vector<Bound>& tightest) {
    const std::int64_t before = least_intervals(room);
    Buying buying;
    for (const Bound& bound : tightest) {
        const std::int64_t units = most_units(room, bound.resource_id);
        std::int64_t& count = room.resources[bound.resource_id].count;
        const std::int64_t more = units - count % units;
        count += more;
        buying.purchases.push_back({bound.resource_id, more});
    }
    buying.intervals = least_intervals(room);
    if (buying.intervals >= before) return std::nullopt;
    return buying;
}

Room without(Room room, std::uint32_t resource_id, std::size_t station) {
    for (std::size_t visit = station; visit < room.needs.size(); visit += room.stations) {
        std::erase_if(room.needs[visit],
                      [&](const Need& need) { return need.resource_id == resource_id; });
    }
    return room;
}

std::optional<Swap> swap_for(const Room& room, std::uint32_t resource_id) {
    std::optional<Swap> best;
    std::int64_t least = least_intervals(room);
    for (std::uint32_t station = 0; station < room.stations; ++station) {
        const bool uses = std::ranges::any_of(
            room.needs[station], [&](const Need& need) { return need.resource_id == resource_id; });
        if (!uses) continue;
        const std::int64_t intervals = least_intervals(without(room, resource_id, station));
        if (intervals >= least) continue;
        least = intervals;
        best = Swap{resource_id, station, intervals};
    }
    return best;
}

}  // namespace

Advice advise(const Room& room) {
    Advice advice;
    const std::int64_t least = least_intervals(room);
    if (least == static_cast<std::int64_t>(room.stations * room.rounds)) return advice;
    advice.tightest = bounds(room);
    std::erase_if(advice.tightest, [&](const Bound& bound) { return bound.intervals < least; });
    advice.buying = buying_for(room, advice.tightest);
    if (advice.tightest.size() == 1)
        advice.swap = swap_for(room, advice.tightest.front().resource_id);
    return advice;
}

}  // namespace stave::floors
