#include "compiler/floor/rotation.hpp"

namespace stave::floors {

namespace {

// What is in use in each interval; teams are put in one after the other.
class Floor {
public:
    Floor(const Room& room, std::size_t beats)
        : room_(room),
          beats_(beats),
          used_(beats * room.rounds, std::vector<std::int64_t>(room.resources.size())),
          teams_at_(beats) {}

    // The shift with the fewest teams at which there is kit for one more.
    std::optional<std::size_t> place_team() {
        std::optional<std::size_t> best;
        for (std::size_t shift = 0; shift < beats_; ++shift) {
            if (best && teams_at_[shift] >= teams_at_[*best]) continue;
            if (has_room(shift)) best = shift;
        }
        if (best) take(*best);
        return best;
    }

private:
    [[nodiscard]] std::size_t interval_of(std::size_t visit, std::size_t shift) const {
        const std::size_t station = visit % room_.stations;
        return visit / room_.stations * beats_ + (station + beats_ - shift) % beats_;
    }

    [[nodiscard]] bool has_room(std::size_t shift) const {
        for (std::size_t visit = 0; visit < room_.needs.size(); ++visit) {
            const auto& used = used_[interval_of(visit, shift)];
            for (const Need& need : room_.needs[visit]) {
                if (used[need.resource_id] + need.units > room_.resources[need.resource_id].count)
                    return false;
            }
        }
        return true;
    }

    void take(std::size_t shift) {
        ++teams_at_[shift];
        for (std::size_t visit = 0; visit < room_.needs.size(); ++visit) {
            for (const Need& need : room_.needs[visit])
                used_[interval_of(visit, shift)][need.resource_id] += need.units;
        }
    }

    const Room& room_;
    std::size_t beats_;
    std::vector<std::vector<std::int64_t>> used_;
    std::vector<std::size_t> teams_at_;
};

}  // namespace

std::optional<Rota> rotation(const Room& room, std::size_t beats) {
    Floor floor(room, beats);
    Rota rota{Method::rotation, {}};
    rota.where.resize(beats * room.rounds, std::vector<std::optional<std::uint32_t>>(room.teams));
    for (std::size_t team = 0; team < room.teams; ++team) {
        const auto shift = floor.place_team();
        if (!shift) return std::nullopt;
        for (std::size_t at = 0; at < rota.where.size(); ++at) {
            const std::size_t station = (at + *shift) % beats;
            if (station >= room.stations) continue;
            rota.where[at][team] = static_cast<std::uint32_t>(at / beats * room.stations + station);
        }
    }
    return rota;
}

}  // namespace stave::floors
