#include "compiler/driver/card_keeper.hpp"

#include <fmt/format.h>

#include <map>
#include <utility>

namespace stave::driver {

namespace {

// Of one source, the first in the order of their paths.
struct TakenCards {
    std::string first;
    std::size_t count = 0;
};

std::string others_too(std::size_t count) {
    if (count == 1) return "";
    return count == 2 ? ", as does 1 other card" : fmt::format(", as do {} other cards", count - 1);
}

}  // namespace

void refuse_taken_cards(const OutputSet& outputs, const std::set<std::string>& known,
                        SourceOwners& owners, std::vector<Diagnostic>& problems) {
    std::map<std::string, TakenCards> taken;
    for (const auto& [path, output] : outputs) {
        const bool is_card = output.kind == "card" || output.kind == "cards";
        if (!is_card || known.contains(path)) continue;
        const auto origin = owners.other_origin(path, output);
        if (!origin) continue;
        const auto& source = owners.find(*origin);
        if (!source || !owners.still_makes(*source, path)) continue;
        TakenCards& cards = taken[*source];
        if (cards.count++ == 0) cards.first = path;
    }
    for (const auto& [source, cards] : taken) {
        problems.push_back({Code::card_taken,
                            {},
                            {cards.first, shown_path(source), others_too(cards.count)},
                            {},
                            {}});
    }
}

}  // namespace stave::driver
