#include "compiler/schedule/lighter.hpp"

#include <algorithm>

#include "compiler/schedule/rounding.hpp"
#include "compiler/schedule/sets.hpp"

namespace stave::schedule {

namespace {

using program::BlockKind;
using program::RunKind;

std::int64_t fewer(std::int64_t count, Ratio share) {
    const Ratio left = nearest(Ratio(count) * (Ratio(1) - share), Ratio(1));
    return std::max<std::int64_t>(left.numerator(), 1);
}

void shorten(Quantity& quantity, Ratio share) {
    const Quantity left{quantity.value * (Ratio(1) - share), quantity.unit};
    const Ratio rounded = rounded_amount(left);
    // Nothing is shortened to nothing.
    if (rounded > Ratio(0)) quantity.value = rounded;
}

// What goes on for a time or a distance can be shorter; repetitions of one set stay.
bool goes_on(const program::Amount& amount) {
    if (amount.form == program::AmountForm::max) return false;
    const Dimension measured = dimension(amount.low.unit);
    return measured == Dimension::time || measured == Dimension::length ||
           measured == Dimension::energy;
}

void shorten_amounts(program::Item& item, Ratio share) {
    if (item.find<program::Pieces>() != nullptr) return;
    for (program::Part& part : item.parts) {
        for (program::Amount& amount : part.amounts) {
            if (!goes_on(amount)) continue;
            shorten(amount.low, share);
            shorten(amount.high, share);
        }
    }
}

void lighten_item(program::Item& item, Ratio share) {
    const auto sets = static_cast<std::int64_t>(item.set_count());
    if (sets > 1) {
        set_sets(item, static_cast<std::size_t>(fewer(sets, share)));
    } else {
        shorten_amounts(item, share);
    }
    for (program::Substitute& substitute : item.substitutes)
        lighten_item(substitute.item, share);
}

void lighten_block(program::Block& block, Ratio share) {
    if (block.run == RunKind::as_many) return shorten(block.time, share);
    if (block.rounds > 1) return set_rounds(block, fewer(block.rounds, share));
    for (program::Item& item : block.items) {
        if (block.by_rounds) {
            shorten_amounts(item, share);
        } else {
            lighten_item(item, share);
        }
    }
}

}  // namespace

void lighten(program::Session& session, Ratio share) {
    for (program::Block& block : session.blocks) {
        const bool stays = block.kind == BlockKind::warm_up || block.kind == BlockKind::cool_down;
        if (!stays) lighten_block(block, share);
    }
}

}  // namespace stave::schedule
