#include "compiler/schedule/sets.hpp"

#include <algorithm>

namespace stave::schedule {

void set_sets(program::Item& item, std::size_t count) {
    const std::size_t before = item.set_count();
    for (program::Part& part : item.parts) {
        const program::Amount last = part.amounts.back();
        part.amounts.resize(count, last);
    }
    if (item.loads.size() == before && before > 1) {
        const program::Load last = item.loads.back();
        item.loads.resize(count, last);
    }
    for (program::Detail& detail : item.details) {
        auto* incline = std::get_if<program::Incline>(&detail);
        if (incline == nullptr || incline->is_range || incline->values.size() != before) continue;
        if (before == 1) continue;
        const Quantity last = incline->values.back();
        incline->values.resize(count, last);
    }
}

void set_rounds(program::Block& block, std::int64_t rounds) {
    const std::int64_t before = block.rounds;
    if (block.least_rounds > 0)
        block.least_rounds = std::max<std::int64_t>(block.least_rounds + rounds - before, 1);
    block.rounds = rounds;
    if (!block.by_rounds) return;
    for (program::Item& item : block.items) {
        if (item.set_count() == static_cast<std::size_t>(before))
            set_sets(item, static_cast<std::size_t>(rounds));
        for (program::Substitute& substitute : item.substitutes) {
            if (substitute.item.set_count() == static_cast<std::size_t>(before))
                set_sets(substitute.item, static_cast<std::size_t>(rounds));
        }
    }
}

}  // namespace stave::schedule
