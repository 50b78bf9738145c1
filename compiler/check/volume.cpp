#include "compiler/check/volume.hpp"

namespace stave::check {

static std::size_t set_total(const program::Item& item) {
    // An item whose line has an error holds nothing.
    if (item.parts.empty()) return 0;
    const std::size_t sides = item.sides.rule == program::SideRule::each ? 2 : 1;
    std::size_t total = item.set_count() * item.parts.size() * sides;
    for (const program::Substitute& substitute : item.substitutes) {
        total += set_total(substitute.item);
    }
    return total;
}

std::size_t set_total(const program::Session& session) {
    std::size_t total = 0;
    for (const program::Block& block : session.blocks) {
        for (const program::Item& item : block.items)
            total += set_total(item);
    }
    return total;
}

}  // namespace stave::check
