#include "compiler/floor/room.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "compiler/floor/stock.hpp"

namespace stave::floors {

namespace {

using timeline::Entry;
using timeline::EntryKind;
using timeline::RestPlace;

bool is_of_station(const Entry& entry) {
    if (entry.kind == EntryKind::work) return true;
    return entry.kind == EntryKind::rest && entry.rest_place != RestPlace::rounds &&
           entry.rest_place != RestPlace::blocks && entry.rest_place != RestPlace::interval;
}

Ratio beat_of(const program::Block& block, std::size_t block_id,
              const timeline::Timeline& timeline) {
    if (block.run == program::RunKind::intervals || block.run == program::RunKind::every_next)
        return in_base_units(block.time) + in_base_units(block.off);
    std::map<std::pair<std::uint32_t, std::uint32_t>, Ratio> seconds;
    Ratio longest;
    for (const Entry& entry : timeline.entries) {
        if (entry.block_id != block_id || !is_of_station(entry)) continue;
        Ratio& own = seconds[{entry.item_id, entry.set}];
        own += entry.length_seconds;
        longest = std::max(longest, own);
    }
    return longest;
}

// Fills a room with what its stations ask for.
class Furnisher {
public:
    Furnisher(const std::vector<Lot>& lots, BlockRoom& made) : lots_(lots), made_(made) {}

    void add(std::uint32_t item_id, std::vector<Ask> asks) {
        for (const Ask& ask : asks) {
            if (ask.lots.empty()) add_lack(made_.missing, {item_id, ask.what, 1, 0});
        }
        std::erase_if(asks, [](const Ask& ask) { return ask.lots.empty(); });
        asked_.push_back(std::move(asks));
    }

    void run() {
        const auto fixed = single_lots();
        for (std::uint32_t visit = 0; visit < asked_.size(); ++visit) {
            std::vector<Need> needs;
            for (const Ask& ask : asked_[visit])
                add_need(needs, ask, visit, fixed);
            made_.room.needs.push_back(std::move(needs));
        }
    }

private:
    static void add_lack(std::vector<Lack>& lacks, Lack lack) {
        const bool is_known = std::ranges::any_of(lacks, [&](const Lack& one) {
            return one.item_id == lack.item_id && one.what == lack.what;
        });
        if (!is_known) lacks.push_back(std::move(lack));
    }

    // Those that somebody asks for and no other would do.
    [[nodiscard]] std::vector<bool> single_lots() const {
        std::vector<bool> fixed(lots_.size());
        for (const auto& asks : asked_) {
            for (const Ask& ask : asks)
                if (ask.lots.size() == 1) fixed[ask.lots.front()] = true;
        }
        return fixed;
    }

    void add_need(std::vector<Need>& needs, const Ask& ask, std::uint32_t visit,
                  const std::vector<bool>& fixed) {
        std::vector<std::uint32_t> lots = ask.lots;
        std::erase_if(lots,
                      [&](std::uint32_t lot) { return fixed[lot] || taken_elsewhere(lot, ask); });
        if (lots.empty()) lots = {ask.lots.front()};
        const std::uint32_t id = resource_of(lots);
        const std::int64_t count = made_.room.resources[id].count;
        if (ask.units > count) {
            const auto item_id = static_cast<std::uint32_t>(visit % made_.room.stations);
            add_lack(made_.too_few, {item_id, made_.room.resources[id].name, ask.units, count});
        }
        const auto same = std::ranges::find(needs, id, &Need::resource_id);
        if (same == needs.end()) {
            needs.push_back({id, std::min(ask.units, count)});
        } else {
            same->units = std::min(std::max(same->units, ask.units), count);
        }
    }

    // In a resource of other lots than the ask would make of it.
    [[nodiscard]] bool taken_elsewhere(std::uint32_t lot, const Ask& ask) const {
        return std::ranges::any_of(resource_lots_, [&](const auto& lots) {
            return std::ranges::find(lots, lot) != lots.end() &&
                   !std::ranges::includes(ask.lots, lots);
        });
    }

    std::uint32_t resource_of(const std::vector<std::uint32_t>& lots) {
        const auto found = std::ranges::find_if(resource_lots_, [&](const auto& own) {
            return std::ranges::find_first_of(own, lots) != own.end();
        });
        const auto id = static_cast<std::uint32_t>(found - resource_lots_.begin());
        if (found != resource_lots_.end()) return id;
        resource_lots_.push_back(lots);
        Resource resource{"", 0};
        for (const std::uint32_t lot : lots) {
            resource.name += (resource.name.empty() ? "" : " or ") + lots_[lot].name;
            resource.count += lots_[lot].count;
        }
        made_.room.resources.push_back(std::move(resource));
        return id;
    }

    const std::vector<Lot>& lots_;
    BlockRoom& made_;
    // For each visit.
    std::vector<std::vector<Ask>> asked_;
    // For each resource, rising; no lot is in two.
    std::vector<std::vector<std::uint32_t>> resource_lots_;
};

}  // namespace

bool is_shared(const program::Block& block) {
    const bool is_kind = block.kind == program::BlockKind::circuit ||
                         block.kind == program::BlockKind::stations ||
                         block.kind == program::BlockKind::superset;
    return is_kind && !block.items.empty();
}

BlockRoom make_room(const program::Program& program, const program::Session& session,
                    std::size_t block_id, const timeline::Timeline& timeline, int people) {
    const program::Block& block = session.blocks[block_id];
    BlockRoom made;
    made.people = people;
    made.team_size = std::clamp<std::int64_t>(block.group_size, 1, people);
    made.beat_seconds = beat_of(block, block_id, timeline);
    Room& room = made.room;
    room.teams = static_cast<std::size_t>((people + made.team_size - 1) / made.team_size);
    room.stations = block.items.size();
    room.rounds = static_cast<std::size_t>(std::max<std::int64_t>(block.rounds, 1));
    if (room.visits() > most_visits) return made;
    const std::vector<Lot> lots = take_lots(session.kit);
    Furnisher furnisher(lots, made);
    for (std::size_t round = 0; round < room.rounds; ++round) {
        for (std::uint32_t item = 0; item < block.items.size(); ++item) {
            std::vector<Ask> wanted;
            if (!session.kit.empty()) wanted = asks(program, block.items[item], round, lots);
            furnisher.add(item, std::move(wanted));
        }
    }
    furnisher.run();
    return made;
}

}  // namespace stave::floors
