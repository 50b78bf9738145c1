#include "compiler/floor/list_rota.hpp"

#include <algorithm>
#include <numeric>

namespace stave::floors {

namespace {

class Lister {
public:
    explicit Lister(const Room& room)
        : room_(room),
          left_(room.teams, std::vector<std::uint32_t>(room.needs.size())),
          asked_(room.resources.size()) {
        for (auto& visits : left_)
            std::iota(visits.begin(), visits.end(), 0U);
        for (const Bound& bound : bounds(room))
            asked_[bound.resource_id] = bound.intervals;
    }

    Rota run() {
        Rota rota{Method::list, {}};
        while (std::ranges::any_of(left_, [](const auto& visits) { return !visits.empty(); }))
            rota.where.push_back(next_interval());
        return rota;
    }

private:
    std::vector<std::optional<std::uint32_t>> next_interval() {
        std::vector<std::int64_t> used(room_.resources.size());
        std::vector<std::size_t> order(room_.teams);
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::ranges::stable_sort(order, [&](std::size_t one, std::size_t other) {
            return left_[one].size() > left_[other].size();
        });
        std::vector<std::optional<std::uint32_t>> row(room_.teams);
        for (const std::size_t team : order)
            row[team] = choose(left_[team], used);
        return row;
    }

    // The visit is no longer among those that are left.
    std::optional<std::uint32_t> choose(std::vector<std::uint32_t>& visits,
                                        std::vector<std::int64_t>& used) const {
        auto best = visits.end();
        for (auto one = visits.begin(); one != visits.end(); ++one) {
            if (is_free(*one, used) && (best == visits.end() || pressure(*one) > pressure(*best)))
                best = one;
        }
        if (best == visits.end()) return std::nullopt;
        const std::uint32_t visit = *best;
        visits.erase(best);
        for (const Need& need : room_.needs[visit])
            used[need.resource_id] += need.units;
        return visit;
    }

    [[nodiscard]] bool is_free(std::uint32_t visit, const std::vector<std::int64_t>& used) const {
        return std::ranges::all_of(room_.needs[visit], [&](const Need& need) {
            return used[need.resource_id] + need.units <= room_.resources[need.resource_id].count;
        });
    }

    // How long those queues are that the visit stands in.
    [[nodiscard]] std::int64_t pressure(std::uint32_t visit) const {
        std::int64_t sum = 0;
        for (const Need& need : room_.needs[visit])
            sum += asked_[need.resource_id];
        return sum;
    }

    const Room& room_;
    std::vector<std::vector<std::uint32_t>> left_;
    std::vector<std::int64_t> asked_;
};

}  // namespace

Rota list_rota(const Room& room) {
    return Lister(room).run();
}

}  // namespace stave::floors
