// A rota: who is at which station in each interval, in as few intervals as the kit allows.
//
// The model. A team (a person, or a group that works together and shares one set of kit) has to
// visit every station once in each round. A visit takes one interval and so many units of some
// resources for as long. No team is at two places, and no resource is used beyond its count.
// The order within a round need not be kept; where the shortest rota can keep it, it does.
//
// The bound. A team needs as many intervals as it has visits. A resource with P places, each
// for one visit at a time, needs ceil(visits / P). No rota is shorter than the largest of these.
//
// Reaching it. Where a visit uses at most one resource that limits, teams and places are the two
// sides of a bipartite multigraph and visits its edges, dealt out evenly over the places of
// their resource. Its edges can be coloured with as many colours as its largest degree (D.
// Konig, Math. Ann. 77, 1916), and a colour is an interval. It is the open shop with unit
// times (T. Gonzalez, S. Sahni, J. ACM 23(4), 1976, 665-679). Both sources from memory. Where a
// visit takes two limiting resources, or takes units of one in different numbers, no such
// promise holds: the rota is a list schedule then, and may be longer than the bound.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace stave::floors {

// Visits of all teams together, beyond which nothing is laid out.
constexpr std::size_t most_visits = 6000;

// Something that there is `count` of, >= 1.
struct Resource {
    std::string name;
    std::int64_t count = 1;
};

struct Need {
    std::uint32_t resource_id = 0;
    // 1 to the resource's count.
    std::int64_t units = 1;
};

struct Room {
    std::size_t teams = 0;
    std::size_t stations = 0;
    std::size_t rounds = 0;
    std::vector<Resource> resources;
    // Of round r and station s at r * stations + s; a resource at most once each.
    std::vector<std::vector<Need>> needs;

    [[nodiscard]] std::size_t visits() const { return teams * stations * rounds; }
};

// What a resource asks of the length.
struct Bound {
    std::uint32_t resource_id = 0;
    // How many visits it serves at a time, and how many there are; where units differ, both in
    // units.
    std::int64_t places = 1;
    std::int64_t visits = 0;
    std::int64_t intervals = 0;
    // Visits take different numbers of units.
    bool is_in_units = false;
};

// How a rota was found. `rotation`: all in the written order with shifted starts. `coloured`:
// by Konig's theorem. `list`: as it came, maybe longer than need be.
enum class Method : std::uint8_t { rotation, coloured, list };

struct Rota {
    Method method = Method::rotation;
    // For each interval and team the visit, an index of Room::needs; nothing: waits.
    std::vector<std::vector<std::optional<std::uint32_t>>> where;
};

// Of each resource that some visit uses, in their order.
[[nodiscard]] std::vector<Bound> bounds(const Room& room);

// The largest of the bounds and of a team's own visits.
[[nodiscard]] std::int64_t least_intervals(const Room& room);

// A resource that cannot serve all teams at once.
[[nodiscard]] bool is_limiting(const Room& room, const Bound& bound);

// Konig's theorem promises a rota as short as the bound.
[[nodiscard]] bool is_promised(const Room& room);

// For a room of at most `most_visits`, at least one team, station and round.
[[nodiscard]] Rota make_rota(const Room& room);

}  // namespace stave::floors
