#include "compiler/loads/rack.hpp"

#include <algorithm>
#include <iterator>
#include <numeric>

namespace stave::loads {

namespace {

constexpr std::int64_t units_per_kilogram = 10'000'000'000;

std::int64_t to_units(Ratio kilograms) {
    return rounded_product(kilograms, Ratio(units_per_kilogram), 1).numerator();
}

// The places in the list, heaviest first.
std::vector<std::size_t> heaviest_first(const std::vector<Weight>& weights) {
    std::vector<std::size_t> ids(weights.size());
    std::iota(ids.begin(), ids.end(), std::size_t{0});
    std::ranges::stable_sort(ids, [&](std::size_t left, std::size_t right) {
        return weights[left].kilograms > weights[right].kilograms;
    });
    return ids;
}

}  // namespace

ReachableLoads ReachableLoads::of_bar(Ratio bar_kilograms, const std::vector<Weight>& pairs) {
    ReachableLoads reachable;
    reachable.nodes_.emplace_back();
    reachable.loads_.push_back({.units = to_units(bar_kilograms)});
    for (const std::size_t id : heaviest_first(pairs)) {
        // One plate on each side.
        const std::int64_t units = 2 * to_units(pairs[id].kilograms);
        reachable.add(id, units, std::min(pairs[id].count, most_of_one));
    }
    return reachable;
}

ReachableLoads ReachableLoads::of_things(const std::vector<Weight>& things, std::int64_t at_once) {
    ReachableLoads reachable;
    reachable.nodes_.emplace_back();
    for (std::size_t id = 0; id < things.size(); ++id) {
        if (things[id].count < at_once) continue;
        reachable.nodes_.push_back({0, static_cast<std::uint32_t>(id), 1});
        reachable.loads_.push_back(
            {.units = to_units(things[id].kilograms),
             .plates = 1,
             .node = static_cast<std::uint32_t>(reachable.nodes_.size() - 1)});
    }
    std::ranges::stable_sort(reachable.loads_, {}, &Load::units);
    const auto twice = std::ranges::unique(reachable.loads_, {}, &Load::units);
    reachable.loads_.erase(twice.begin(), twice.end());
    return reachable;
}

// Every load so far with up to `count` of the weight on it, kept in order. Of one weight the
// way with the fewest plates stays; with equally many the one of heavier plates.
void ReachableLoads::add(std::size_t weight_id, std::int64_t units, std::int64_t count) {
    if (units <= 0 || is_cut_) return;
    const std::vector<Load> before = loads_;
    for (std::int64_t more = 1; more <= count && !is_cut_; ++more) {
        std::vector<Load> heavier;
        heavier.reserve(before.size());
        for (const Load& load : before) {
            if (load.units + units * more > to_units(most_kilograms)) break;
            const auto plates = static_cast<std::uint32_t>(more);
            heavier.push_back({load.units + units * more, load.plates + plates, load.node, plates,
                               load.rank + plates});
        }
        std::vector<Load> all;
        all.reserve(loads_.size() + heavier.size());
        std::ranges::merge(loads_, heavier, std::back_inserter(all), is_before);
        const auto twice = std::ranges::unique(all, {}, &Load::units);
        all.erase(twice.begin(), twice.end());
        is_cut_ = all.size() > most_reachable;
        if (!is_cut_) loads_ = std::move(all);
    }
    close(weight_id);
}

bool ReachableLoads::is_before(const Load& left, const Load& right) {
    if (left.units != right.units) return left.units < right.units;
    return left.plates != right.plates ? left.plates < right.plates : left.rank > right.rank;
}

// Gives the loads that have stayed their nodes, and ranks with room for the next weight's
// plates between them.
void ReachableLoads::close(std::size_t weight_id) {
    std::vector<Load*> by_rank;
    by_rank.reserve(loads_.size());
    for (Load& load : loads_) {
        by_rank.push_back(&load);
        if (load.added == 0) continue;
        nodes_.push_back({load.node, static_cast<std::uint32_t>(weight_id), load.added});
        load.node = static_cast<std::uint32_t>(nodes_.size() - 1);
        load.added = 0;
    }
    std::ranges::sort(by_rank, {}, &Load::rank);
    std::uint32_t rank = 0;
    for (Load* load : by_rank)
        load->rank = (rank += most_of_one + 1);
}

std::vector<std::size_t> ReachableLoads::ids_of(const Load& load) const {
    std::vector<std::size_t> ids;
    for (std::uint32_t node = load.node; node != 0; node = nodes_[node].rest)
        ids.insert(ids.begin(), nodes_[node].count, nodes_[node].weight_id);
    return ids;
}

std::optional<ReachableLoads::Choice> ReachableLoads::choose(Ratio kilograms,
                                                             Direction direction) const {
    if (loads_.empty()) return std::nullopt;
    const std::int64_t wanted = to_units(kilograms);
    const auto above = std::ranges::lower_bound(loads_, wanted, {}, &Load::units);
    Choice choice;
    if (above != loads_.end() && above->units == wanted) {
        choice.is_exact = true;
        choice.ids = ids_of(*above);
        return choice;
    }
    const bool has_above = above != loads_.end();
    const bool has_below = above != loads_.begin();
    if (has_above) choice.above = ids_of(*above);
    if (has_below) choice.below = ids_of(*std::prev(above));
    bool goes_up = !has_below;
    if (has_above && has_below) {
        const bool is_nearer = above->units - wanted < wanted - std::prev(above)->units;
        goes_up = direction == Direction::up || (direction == Direction::nearest && is_nearer);
    }
    choice.ids = goes_up ? *choice.above : *choice.below;
    return choice;
}

}  // namespace stave::loads
