#include "compiler/floor/floor.hpp"

#include <algorithm>
#include <utility>

namespace stave::floors {

std::vector<BlockRota> rotas(const program::Program& program, const program::Session& session,
                             const timeline::Timeline& timeline, int people,
                             std::size_t& visits_left) {
    std::vector<BlockRota> found;
    for (std::size_t id = 0; id < session.blocks.size(); ++id) {
        if (!is_shared(session.blocks[id])) continue;
        BlockRota one{id, make_room(program, session, id, timeline, people), {}, std::nullopt};
        const Room& room = one.made.room;
        const std::size_t visits = room.visits();
        if (visits <= std::min(most_visits, visits_left) && one.made.too_few.empty()) {
            visits_left -= visits;
            one.advice = advise(room);
            one.rota = make_rota(room);
        }
        found.push_back(std::move(one));
    }
    return found;
}

}  // namespace stave::floors
