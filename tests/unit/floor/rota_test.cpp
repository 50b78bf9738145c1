// Rotas: nobody at two places, no thing used twice at once, everybody everywhere as often as
// rounds ask for, and as short as can be.
//
// That a bipartite multigraph's edges take as many colours as its largest degree is D. Konig's
// theorem (Math. Ann. 77, 1916; from memory); small rooms are also held against trying every
// rota.
#include "compiler/floor/rota.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <random>

namespace stave {

namespace {

using floors::Method;
using floors::Need;
using floors::Room;
using floors::Rota;

Room make_room(std::size_t teams, std::size_t rounds, std::vector<std::int64_t> counts,
               const std::vector<std::vector<Need>>& stations) {
    Room room;
    room.teams = teams;
    room.rounds = rounds;
    room.stations = stations.size();
    for (const std::int64_t count : counts)
        room.resources.push_back({"thing", count});
    for (std::size_t round = 0; round < rounds; ++round)
        room.needs.insert(room.needs.end(), stations.begin(), stations.end());
    return room;
}

void check_uses(const Room& room, const std::vector<std::optional<std::uint32_t>>& interval) {
    std::map<std::uint32_t, std::int64_t> used;
    for (const auto& visit : interval) {
        if (!visit) continue;
        for (const Need& need : room.needs[*visit])
            used[need.resource_id] += need.units;
    }
    for (const auto& [id, units] : used)
        EXPECT_LE(units, room.resources[id].count);
}

// A visit stands for one round of one station, so each team makes each visit once.
void check(const Room& room, const Rota& rota) {
    std::vector<std::vector<int>> visits(room.teams, std::vector<int>(room.needs.size()));
    for (const auto& interval : rota.where) {
        ASSERT_EQ(interval.size(), room.teams);
        check_uses(room, interval);
        for (std::size_t team = 0; team < room.teams; ++team) {
            if (interval[team]) ++visits[team][*interval[team]];
        }
    }
    for (const auto& of_team : visits) {
        EXPECT_TRUE(std::ranges::all_of(of_team, [](int count) { return count == 1; }));
    }
    EXPECT_GE(static_cast<std::int64_t>(rota.where.size()), floors::least_intervals(room));
    if (floors::is_promised(room) || rota.method != Method::list) {
        EXPECT_EQ(static_cast<std::int64_t>(rota.where.size()), floors::least_intervals(room));
    }
}

TEST(Rota, gives_everybody_all_stations_without_clashes) {
    std::mt19937 random(20261126);  // NOLINT(cert-msc32-c,cert-msc51-cpp): the same every time
    const auto up_to = [&](std::size_t most) { return 1 + random() % most; };
    for (int i = 0; i < 600; ++i) {
        const std::size_t things = up_to(4);
        std::vector<std::int64_t> counts;
        for (std::size_t thing = 0; thing < things; ++thing)
            counts.push_back(static_cast<std::int64_t>(up_to(4)));
        std::vector<std::vector<Need>> stations(up_to(6));
        const std::size_t most_needs = i % 3 == 0 ? 2 : 1;
        for (auto& needs : stations) {
            for (std::size_t thing = 0; thing < things && needs.size() < most_needs; ++thing) {
                if (random() % 2 == 0) needs.push_back({static_cast<std::uint32_t>(thing), 1});
            }
        }
        const Room room = make_room(up_to(20), up_to(3), counts, stations);
        SCOPED_TRACE(i);
        check(room, floors::make_rota(room));
    }
}

// With one rower 8 people need 8 turns at it in each of 3 rounds, whatever else they do.
TEST(Rota, is_as_long_as_the_scarcest_thing_asks_for) {
    const Room room = make_room(8, 3, {1}, {{{0, 1}}, {}, {}});
    EXPECT_EQ(floors::least_intervals(room), 24);
    const Rota rota = floors::make_rota(room);
    EXPECT_EQ(rota.where.size(), 24U);
    check(room, rota);
}

// As coaches expect it: with room for all everybody starts one station further on.
TEST(Rota, goes_round_in_the_written_order_where_there_is_room) {
    const Room room = make_room(3, 2, {1, 1, 1}, {{{0, 1}}, {{1, 1}}, {{2, 1}}});
    const Rota rota = floors::make_rota(room);
    EXPECT_EQ(rota.method, Method::rotation);
    EXPECT_EQ(rota.where.size(), 6U);
    check(room, rota);
}

// Tries everything: for each interval every choice of visits that the things allow.
class Exhaustive {
public:
    explicit Exhaustive(const Room& room) : room_(room) {}

    std::size_t shortest() {
        for (std::size_t length = static_cast<std::size_t>(floors::least_intervals(room_));;
             ++length) {
            left_.assign(room_.teams, (1U << room_.needs.size()) - 1);
            if (fits(length)) return length;
        }
    }

private:
    bool fits(std::size_t intervals) {
        if (std::ranges::all_of(left_, [](unsigned visits) { return visits == 0; })) return true;
        if (intervals == 0) return false;
        std::vector<std::int64_t> free;
        for (const floors::Resource& one : room_.resources)
            free.push_back(one.count);
        return place(0, free, intervals);
    }

    bool place(std::size_t team, std::vector<std::int64_t>& free, std::size_t intervals) {
        if (team == room_.teams) return fits(intervals - 1);
        for (std::size_t visit = 0; visit < room_.needs.size(); ++visit) {
            if ((left_[team] >> visit & 1U) == 0 || !take(visit, free, -1)) continue;
            left_[team] ^= 1U << visit;
            if (place(team + 1, free, intervals)) return true;
            left_[team] ^= 1U << visit;
            take(visit, free, 1);
        }
        return place(team + 1, free, intervals);
    }

    bool take(std::size_t visit, std::vector<std::int64_t>& free, std::int64_t sign) const {
        const auto& needs = room_.needs[visit];
        if (sign < 0 && std::ranges::any_of(needs, [&](const Need& need) {
                return free[need.resource_id] < need.units;
            })) {
            return false;
        }
        for (const Need& need : needs)
            free[need.resource_id] += sign * need.units;
        return true;
    }

    const Room& room_;
    std::vector<unsigned> left_;
};

TEST(Rota, is_as_short_as_any_of_a_small_room) {
    std::mt19937 random(1916);  // NOLINT(cert-msc32-c,cert-msc51-cpp): the same every time
    for (int i = 0; i < 60; ++i) {
        std::vector<std::vector<Need>> stations(1 + random() % 3);
        for (auto& needs : stations) {
            if (random() % 3 > 0) needs.push_back({static_cast<std::uint32_t>(random() % 2), 1});
        }
        const Room room =
            make_room(1 + random() % 3, 1, {1, 1 + static_cast<int>(random() % 2)}, stations);
        SCOPED_TRACE(i);
        const Rota rota = floors::make_rota(room);
        check(room, rota);
        EXPECT_EQ(rota.where.size(), Exhaustive(room).shortest());
    }
}

// Two of a thing for one and one for another: no theorem promises the bound.
TEST(Rota, keeps_to_the_count_where_stations_take_more_than_one) {
    const Room room = make_room(5, 2, {3, 1}, {{{0, 2}, {1, 1}}, {{0, 1}}, {}});
    EXPECT_FALSE(floors::is_promised(room));
    check(room, floors::make_rota(room));
}

TEST(Rota, of_the_largest_room_is_found) {
    const Room room = make_room(60, 10, {3, 7}, std::vector<std::vector<Need>>(10, {{0, 1}}));
    ASSERT_LE(room.visits(), floors::most_visits);
    check(room, floors::make_rota(room));
}

}  // namespace

}  // namespace stave
