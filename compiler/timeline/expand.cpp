#include <algorithm>
#include <utility>

#include "compiler/timeline/pace.hpp"
#include "compiler/timeline/timeline.hpp"

namespace stave::timeline {

namespace {

using program::Amount;
using program::AmountForm;
using program::Block;
using program::Item;
using program::Part;
using program::Rest;
using program::SideRule;

// Times are kept to the millisecond, loads to the eighth decimal (a pound's
// kilograms are exact there) and amounts to a millionth of their unit.
constexpr std::int64_t per_second = 1000;
constexpr std::int64_t per_kilogram = 100'000'000;
constexpr std::int64_t per_unit = 1'000'000;

// Kilograms moved by one repetition: everything held, the upper end of a range.
Ratio load_kg(const program::Load& load) {
    Ratio sum;
    for (const program::LoadTerm& term : load.terms) {
        if (term.kind != program::LoadKind::mass) continue;
        sum += rounded(Ratio(term.implements) * in_base_units(term.high), per_kilogram);
    }
    return sum;
}

// Adds repetitions times load. A thousand tonnes in one set, or a million in all,
// is no training; from there on whole kilograms keep the sum inside 64 bits.
void add_moved(Ratio& total_kg, Ratio reps, Ratio kilograms) {
    constexpr std::int64_t much_for_a_set = 1'000'000;
    constexpr std::int64_t much_in_all = 1'000'000'000;
    const bool much = rounded_product(reps, kilograms, 1) > Ratio(much_for_a_set) ||
                      total_kg > Ratio(much_in_all);
    const std::int64_t precision = much ? 1 : per_kilogram;
    total_kg = rounded(total_kg, precision) + rounded_product(reps, kilograms, precision);
}

class Expander {
public:
    Expander(const program::Program& program, const program::Session& session)
        : program_(program), session_(session) {}

    Timeline run() {
        for (std::uint32_t i = 0; i < session_.blocks.size(); ++i) {
            block_id_ = i;
            const Block& block = session_.blocks[i];
            timeline_.blocks.push_back({timeline_.total_seconds, {}, 0});
            note_missing_rests(block);
            if (block.by_rounds) {
                expand_rounds(block);
            } else {
                expand_in_turn(block);
            }
            BlockTotal& total = timeline_.blocks.back();
            total.length_seconds = timeline_.total_seconds - total.start_seconds;
            timeline_.sets += total.sets;
        }
        if (timeline_.sets > 1) note(AssumptionKind::no_change_time, "");
        return std::move(timeline_);
    }

private:
    // Every item does all its sets before the next begins.
    void expand_in_turn(const Block& block) {
        for (std::uint32_t i = 0; i < block.items.size(); ++i) {
            const Item& item = block.items[i];
            const bool last_item = i + 1 == block.items.size();
            const auto& between_sets = item.rest ? item.rest : block.rest_between_sets;
            for (std::uint32_t set = 0; set < item.set_count(); ++set) {
                do_set(block, i, set);
                if (set + 1 < item.set_count()) {
                    add_rest(between_sets, i, set, RestPlace::sets);
                } else if (!last_item) {
                    add_rest(before_next(block, item), i, set, RestPlace::movements);
                }
            }
        }
    }

    // What comes between an item's last set and the next item.
    static const std::optional<Rest>& before_next(const Block& block, const Item& item) {
        if (item.rest_after) return item.rest_after;
        if (block.rest_between_movements) return block.rest_between_movements;
        return item.rest ? item.rest : block.rest_between_sets;
    }

    // Items take turns; `set` is the round.
    void expand_rounds(const Block& block) {
        for (std::uint32_t round = 0; round < block.rounds; ++round) {
            for (std::uint32_t i = 0; i < block.items.size(); ++i) {
                const Item& item = block.items[i];
                do_set(block, i, round);
                const bool last_item = i + 1 == block.items.size();
                const bool last_round = round + 1 == block.rounds;
                const std::optional<Rest>& own = item.rest_after ? item.rest_after : item.rest;
                if (!last_item) {
                    add_rest(own ? own : block.rest_between_movements, i, round,
                             RestPlace::movements);
                } else if (!last_round) {
                    add_rest(block.rest_between_rounds ? block.rest_between_rounds : own, i, round,
                             RestPlace::rounds);
                }
            }
        }
    }

    // One set of an item: its parts, on one side and then the other where the
    // amount is for each.
    void do_set(const Block& block, std::uint32_t item_id, std::uint32_t set) {
        const Item& item = block.items[item_id];
        switch (item.sides.rule) {
            case SideRule::each: {
                do_parts(item, item_id, set, Side::left);
                const auto& rest =
                    item.rest_between_sides ? item.rest_between_sides : block.rest_between_sides;
                add_rest(rest, item_id, set, RestPlace::sides);
                do_parts(item, item_id, set, Side::right);
                break;
            }
            case SideRule::left:
                do_parts(item, item_id, set, Side::left);
                break;
            case SideRule::right:
                do_parts(item, item_id, set, Side::right);
                break;
            case SideRule::unsided:
            case SideRule::alternating:
                do_parts(item, item_id, set, Side::both);
                break;
        }
        ++timeline_.blocks.back().sets;
    }

    void do_parts(const Item& item, std::uint32_t item_id, std::uint32_t set, Side side) {
        for (std::uint32_t part_id = 0; part_id < item.parts.size(); ++part_id) {
            const Part& part = item.parts[part_id];
            if (part.counted_by_default && part.amounts[set].form != AmountForm::max) {
                note(AssumptionKind::counted_as_reps, part.name);
            }
            const Ratio exact = set_seconds(program_, item, part, set,
                                            [&](AssumptionKind kind) { note(kind, part.name); });
            const Ratio seconds = rounded(exact, per_second);
            push({EntryKind::work, timeline_.total_seconds, seconds, block_id_, item_id, part_id,
                  set, side, RestPlace::sets});
            timeline_.work_seconds += seconds;
            add_to_totals(item, part, set, side, seconds);
        }
    }

    void add_rest(const std::optional<Rest>& rest, std::uint32_t item_id, std::uint32_t set,
                  RestPlace place) {
        if (!rest) return;
        if (rest->low != rest->high) {
            const Item& item = session_.blocks[block_id_].items[item_id];
            note(AssumptionKind::range_counts_upper_end, item.parts.front().name);
        }
        push({EntryKind::rest, timeline_.total_seconds,
              rounded(in_base_units(rest->high), per_second), block_id_, item_id, 0, set,
              Side::both, place});
    }

    void push(Entry entry) {
        timeline_.total_seconds += entry.length_seconds;
        timeline_.entries.push_back(entry);
    }

    MovementTotal& total_of(const std::string& name, Unit unit) {
        const auto found = std::ranges::find_if(
            timeline_.movements,
            [&](const MovementTotal& total) { return total.unit == unit && total.name == name; });
        if (found != timeline_.movements.end()) return *found;
        MovementTotal& total = timeline_.movements.emplace_back();
        total.name = name;
        total.unit = unit;
        return total;
    }

    void add_to_totals(const Item& item, const Part& part, std::uint32_t set, Side side,
                       Ratio seconds) {
        const Amount& amount = part.amounts[set];
        MovementTotal& total = total_of(part.name, amount.high.unit);
        total.work_seconds += seconds;
        // A set on two sides is one set.
        if (side != Side::right || item.sides.rule == SideRule::right) ++total.sets;
        if (amount.form == AmountForm::max) {
            if (side != Side::right || item.sides.rule == SideRule::right) ++total.open_sets;
            return;
        }
        const Ratio value = rounded(amount.high.value, per_unit);
        if (side == Side::left) total.left += value;
        if (side == Side::right) total.right += value;
        if (side == Side::both) {
            if (item.sides.rule == SideRule::alternating) {
                // The left side begins, so it has the odd one.
                const Ratio half = value / Ratio(2);
                const bool counts = dimension(amount.high.unit) == Dimension::count;
                const Ratio left = counts ? Ratio(ceil(half)) : half;
                total.left += left;
                total.right += value - left;
            } else {
                total.both += value;
            }
        }
        if (amount.high.unit == Unit::reps && !item.loads.empty()) {
            const std::size_t load = item.loads.size() == 1 ? 0 : set;
            add_moved(total.tonnage_kg, value, load_kg(item.loads[load]));
        }
    }

    // Sets without a rest between them are worth saying, once for each block.
    void note_missing_rests(const Block& block) {
        if (block.by_rounds) {
            const bool own =
                !block.items.empty() && (block.items.back().rest || block.items.back().rest_after);
            if (block.rounds > 1 && !block.rest_between_rounds && !own) {
                note(AssumptionKind::no_rest_said, std::string("block ") + block.letter);
            }
            return;
        }
        for (const Item& item : block.items) {
            if (item.set_count() > 1 && !item.rest && !block.rest_between_sets) {
                note(AssumptionKind::no_rest_said, item.parts.front().name);
            }
        }
    }

    void note(AssumptionKind kind, const std::string& movement) {
        const auto found = std::ranges::find(timeline_.assumptions, kind, &Assumption::kind);
        if (found == timeline_.assumptions.end()) {
            Assumption& assumption = timeline_.assumptions.emplace_back();
            assumption.kind = kind;
            if (!movement.empty()) assumption.movements.push_back(movement);
        } else if (std::ranges::find(found->movements, movement) == found->movements.end()) {
            found->movements.push_back(movement);
        }
    }

    const program::Program& program_;
    const program::Session& session_;
    Timeline timeline_;
    std::uint32_t block_id_ = 0;
};

}  // namespace

std::int64_t minutes(const Timeline& timeline) {
    constexpr std::int64_t seconds_per_minute = 60;
    return std::max<std::int64_t>(1, ceil(timeline.total_seconds / Ratio(seconds_per_minute)));
}

Timeline expand(const program::Program& program, const program::Session& session) {
    return Expander(program, session).run();
}

}  // namespace stave::timeline
