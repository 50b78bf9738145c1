#include "compiler/floor/rota.hpp"

#include <algorithm>

#include "compiler/floor/colouring.hpp"
#include "compiler/floor/list_rota.hpp"
#include "compiler/floor/rotation.hpp"

namespace stave::floors {

namespace {

// Both > 0.
std::int64_t divided_up(std::int64_t value, std::int64_t by) {
    return (value + by - 1) / by;
}

// Visits that are the same but for the round are done in the order of the rounds.
void sort_rounds(const Room& room, Rota& rota) {
    for (std::size_t team = 0; team < room.teams; ++team) {
        std::vector<std::vector<std::size_t>> times(room.stations);
        for (std::size_t at = 0; at < rota.where.size(); ++at) {
            if (const auto visit = rota.where[at][team])
                times[*visit % room.stations].push_back(at);
        }
        for (const auto& own : times) {
            std::vector<std::uint32_t> visits;
            for (const std::size_t at : own)
                visits.push_back(*rota.where[at][team]);
            const bool is_alike = std::ranges::all_of(visits, [&](std::uint32_t visit) {
                return std::ranges::equal(room.needs[visit], room.needs[visits.front()],
                                          [](const Need& left, const Need& right) {
                                              return left.resource_id == right.resource_id &&
                                                     left.units == right.units;
                                          });
            });
            if (!is_alike) continue;
            std::ranges::sort(visits);
            for (std::size_t i = 0; i < own.size(); ++i)
                rota.where[own[i]][team] = visits[i];
        }
    }
}

}  // namespace

std::vector<Bound> bounds(const Room& room) {
    struct Use {
        std::int64_t visits = 0;
        std::int64_t units = 0;
        std::int64_t least = 0;
        std::int64_t most = 0;
    };
    std::vector<Use> uses(room.resources.size());
    for (const auto& needs : room.needs) {
        for (const Need& need : needs) {
            Use& use = uses[need.resource_id];
            use.least = use.visits == 0 ? need.units : std::min(use.least, need.units);
            use.most = std::max(use.most, need.units);
            ++use.visits;
            use.units += need.units;
        }
    }
    const auto teams = static_cast<std::int64_t>(room.teams);
    std::vector<Bound> found;
    for (std::uint32_t id = 0; id < uses.size(); ++id) {
        const Use& use = uses[id];
        if (use.visits == 0) continue;
        const std::int64_t count = room.resources[id].count;
        const bool is_mixed = use.least != use.most;
        const std::int64_t places = is_mixed ? count : count / use.most;
        const std::int64_t visits = teams * (is_mixed ? use.units : use.visits);
        found.push_back({id, places, visits, divided_up(visits, places), is_mixed});
    }
    return found;
}

bool is_limiting(const Room& room, const Bound& bound) {
    const auto teams = static_cast<std::int64_t>(room.teams);
    if (!bound.is_in_units) return bound.places < teams;
    std::int64_t most = 0;
    for (const auto& needs : room.needs) {
        for (const Need& need : needs)
            if (need.resource_id == bound.resource_id) most = std::max(most, need.units);
    }
    return bound.places / most < teams;
}

std::int64_t least_intervals(const Room& room) {
    auto least = static_cast<std::int64_t>(room.stations * room.rounds);
    for (const Bound& bound : bounds(room))
        least = std::max(least, bound.intervals);
    return least;
}

bool is_promised(const Room& room) {
    std::vector<bool> limits(room.resources.size());
    for (const Bound& bound : bounds(room)) {
        if (!is_limiting(room, bound)) continue;
        if (bound.is_in_units) return false;
        limits[bound.resource_id] = true;
    }
    return std::ranges::all_of(room.needs, [&](const std::vector<Need>& needs) {
        return std::ranges::count_if(
                   needs, [&](const Need& need) { return limits[need.resource_id]; }) <= 1;
    });
}

Rota make_rota(const Room& room) {
    const auto rounds = static_cast<std::int64_t>(room.rounds);
    const std::int64_t least = least_intervals(room);
    if (least % rounds == 0) {
        if (auto rota = rotation(room, static_cast<std::size_t>(least / rounds))) return *rota;
    }
    if (is_promised(room)) {
        Rota rota = coloured_rota(room);
        sort_rounds(room, rota);
        return rota;
    }
    Rota rota = list_rota(room);
    sort_rounds(room, rota);
    return rota;
}

}  // namespace stave::floors
