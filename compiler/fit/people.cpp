#include "compiler/fit/people.hpp"

#include <algorithm>
#include <numeric>

#include "compiler/names/names.hpp"

namespace stave::fit {

namespace {

using Ids = std::vector<std::uint32_t>;

// Of an athlete or a squad; none for a name that is neither.
Ids people_called(const program::Program& program, const std::string& folded) {
    const auto squad = std::ranges::find(program.squads, folded, &program::Squad::folded_name);
    if (squad != program.squads.end()) return squad->athlete_ids;
    const auto person = std::ranges::find(program.athletes, folded, &program::Athlete::folded_name);
    if (person == program.athletes.end()) return {};
    return {static_cast<std::uint32_t>(person - program.athletes.begin())};
}

Ids everybody(const program::Program& program) {
    Ids ids(program.athletes.size());
    std::iota(ids.begin(), ids.end(), 0U);
    return ids;
}

const program::Squad* squad_of_group(const program::Program& program, const std::string& group) {
    const std::string folded = fold_name(group);
    const auto found = std::ranges::find_if(program.squads, [&](const program::Squad& squad) {
        return squad.folded_name == folded || squad.folded_name == "group " + folded;
    });
    return found == program.squads.end() ? nullptr : &*found;
}

}  // namespace

Ids people_of(const program::Program& program, const program::Session& session) {
    if (program.athletes.empty()) return {};
    if (session.audience.empty()) {
        if (session.group.empty()) return everybody(program);
        const program::Squad* squad = squad_of_group(program, session.group);
        return squad == nullptr ? everybody(program) : squad->athlete_ids;
    }
    Ids ids;
    for (const std::string& name : session.audience) {
        const Ids more = people_called(program, fold_name(name));
        ids.insert(ids.end(), more.begin(), more.end());
    }
    std::ranges::sort(ids);
    const auto twice = std::ranges::unique(ids);
    ids.erase(twice.begin(), twice.end());
    return ids;
}

bool has_squad(const program::Program& program, const std::string& group) {
    return squad_of_group(program, group) != nullptr;
}

std::vector<std::string> squads_of(const program::Program& program, std::uint32_t athlete_id) {
    std::vector<std::string> names;
    for (const program::Squad& squad : program.squads) {
        if (std::ranges::binary_search(squad.athlete_ids, athlete_id))
            names.push_back(squad.folded_name);
    }
    return names;
}

}  // namespace stave::fit
