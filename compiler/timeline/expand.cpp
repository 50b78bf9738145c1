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
            expand_block(block);
            BlockTotal& total = timeline_.blocks.back();
            total.length_seconds = timeline_.total_seconds - total.start_seconds;
            timeline_.sets += total.sets;
        }
        if (timeline_.sets > 1) note(AssumptionKind::no_change_time, "");
        return std::move(timeline_);
    }

private:
    void expand_block(const Block& block) {
        if (!block.by_sides) return expand_once(block);
        pass_ = block.right_first ? Side::right : Side::left;
        expand_once(block);
        if (!block.items.empty()) {
            add_rest(block.rest_between_sides, 0, 0, RestPlace::sides);
        }
        pass_ = block.right_first ? Side::left : Side::right;
        second_half_ = true;
        expand_once(block);
        second_half_ = false;
        pass_ = Side::both;
    }

    // The block, for the sides of the pass at hand.
    void expand_once(const Block& block) {
        using program::RunKind;
        switch (block.run) {
            case RunKind::in_turn:
                if (block.by_rounds) return expand_rounds(block);
                return expand_in_turn(block);
            case RunKind::rounds:
            case RunKind::for_time:
                return expand_rounds(block);
            case RunKind::as_many:
                return expand_as_many(block);
            case RunKind::every_next:
            case RunKind::every_all:
                return expand_every(block);
            case RunKind::intervals:
                return expand_intervals(block);
        }
    }

    // One round, and the rest of the time for more of them.
    void expand_as_many(const Block& block) {
        note(AssumptionKind::one_round_counted, std::string("block ") + block.letter);
        const Ratio start = timeline_.total_seconds;
        expand_rounds(block);
        const Ratio left = in_base_units(block.time) - (timeline_.total_seconds - start);
        if (left <= Ratio(0)) return;
        push({EntryKind::more_rounds, timeline_.total_seconds, rounded(left, per_second), block_id_,
              0, 0, 0, Side::both, RestPlace::rounds});
        timeline_.work_seconds += rounded(left, per_second);
    }

    // What is left of an interval is rest.
    void expand_every(const Block& block) {
        const bool all = block.run == program::RunKind::every_all;
        for (std::uint32_t round = 0; round < block.rounds; ++round) {
            Ratio start = timeline_.total_seconds;
            for (std::uint32_t i = 0; i < block.items.size(); ++i) {
                do_set(block, i, round);
                const bool last_item = i + 1 == block.items.size();
                if (all && !last_item) continue;
                fill_interval(block, start, i, round);
                start = timeline_.total_seconds;
            }
            if (round + 1 < block.rounds && !block.items.empty()) {
                add_rest(block.rest_between_rounds,
                         static_cast<std::uint32_t>(block.items.size() - 1), round,
                         RestPlace::rounds);
            }
        }
    }

    void fill_interval(const Block& block, Ratio start, std::uint32_t item_id, std::uint32_t set) {
        const Ratio length = rounded(in_base_units(block.time), per_second);
        const Ratio left = length - (timeline_.total_seconds - start);
        if (left <= Ratio(0)) return;
        push({EntryKind::rest, timeline_.total_seconds, left, block_id_, item_id, 0, set,
              Side::both, RestPlace::interval});
    }

    // Every station takes its time on, whatever is done in it.
    void expand_intervals(const Block& block) {
        const Ratio on = rounded(in_base_units(block.time), per_second);
        const Ratio off = rounded(in_base_units(block.off), per_second);
        for (std::uint32_t round = 0; round < block.rounds; ++round) {
            for (std::uint32_t i = 0; i < block.items.size(); ++i) {
                interval_ = on;
                do_set(block, i, round);
                interval_.reset();
                const bool last_item = i + 1 == block.items.size();
                if (last_item && round + 1 == block.rounds) continue;
                const bool long_rest = last_item && block.rest_between_rounds;
                if (long_rest) {
                    add_rest(block.rest_between_rounds, i, round, RestPlace::rounds);
                } else {
                    push({EntryKind::rest, timeline_.total_seconds, off, block_id_, i, 0, round,
                          Side::both, RestPlace::interval});
                }
            }
        }
    }

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
        if (is_of_other_side(item)) return;
        switch (item.sides.rule) {
            case SideRule::each:
            case SideRule::swapped:
            case SideRule::there_and_back:
                do_both_sides(block, item, item_id, set);
                break;
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
        if (is_new_set(item)) ++timeline_.blocks.back().sets;
    }

    // With the whole block on one side first, "8 left" belongs to one of the two.
    [[nodiscard]] bool is_of_other_side(const Item& item) const {
        return (pass_ == Side::left && item.sides.rule == SideRule::right) ||
               (pass_ == Side::right && item.sides.rule == SideRule::left);
    }

    // A set on two sides is one set; what has no side is done again on the second.
    [[nodiscard]] bool is_new_set(const Item& item) const {
        return !second_half_ || (pass_ != Side::both && !has_two_halves(item));
    }

    static bool has_two_halves(const Item& item) {
        return item.sides.rule == SideRule::each || item.sides.rule == SideRule::swapped ||
               item.sides.rule == SideRule::there_and_back;
    }

    void do_both_sides(const Block& block, const Item& item, std::uint32_t item_id,
                       std::uint32_t set) {
        const bool sided = item.sides.rule != SideRule::there_and_back;
        if (sided && pass_ != Side::both) return do_parts(item, item_id, set, pass_);
        Side first = sided ? Side::left : Side::both;
        Side second = sided ? Side::right : Side::both;
        if (item.sides.right_first) std::swap(first, second);
        do_parts(item, item_id, set, first);
        const auto& rest =
            item.rest_between_sides ? item.rest_between_sides : block.rest_between_sides;
        add_rest(rest, item_id, set, RestPlace::sides);
        const bool in_second_pass = std::exchange(second_half_, true);
        do_parts(item, item_id, set, second);
        second_half_ = in_second_pass;
    }

    void do_parts(const Item& item, std::uint32_t item_id, std::uint32_t set, Side side) {
        for (std::uint32_t part_id = 0; part_id < item.parts.size(); ++part_id) {
            const Part& part = item.parts[part_id];
            if (part.counted_by_default && part.amounts[set].form != AmountForm::max) {
                note(AssumptionKind::counted_as_reps, part.name);
            }
            const Ratio exact = seconds_of(item, part, set);
            const Ratio seconds = rounded(exact, per_second);
            last_work_ = seconds;
            push({EntryKind::work, timeline_.total_seconds, seconds, block_id_, item_id, part_id,
                  set, side, RestPlace::sets});
            timeline_.work_seconds += seconds;
            add_to_totals(item, part, set, side, seconds);
        }
    }

    // An interval's time is shared by what is done in it.
    Ratio seconds_of(const Item& item, const Part& part, std::uint32_t set) {
        const auto say = [&](AssumptionKind kind) { note(kind, part.name); };
        if (!interval_) return set_seconds(program_, item, part, set, say);
        const bool halved = pass_ == Side::both && has_two_halves(item);
        const auto shares = static_cast<std::int64_t>(item.parts.size()) * (halved ? 2 : 1);
        return *interval_ / Ratio(shares);
    }

    void add_rest(const std::optional<Rest>& rest, std::uint32_t item_id, std::uint32_t set,
                  RestPlace place) {
        if (!rest) return;
        const Item& item = session_.blocks[block_id_].items[item_id];
        if (item.parts.empty()) return;
        if (rest->low != rest->high) {
            note(AssumptionKind::range_counts_upper_end, item.parts.front().name);
        }
        push({EntryKind::rest, timeline_.total_seconds,
              rounded(rest_length(*rest, item, set), per_second), block_id_, item_id, 0, set,
              Side::both, place});
    }

    Ratio rest_length(const Rest& rest, const Item& item, std::uint32_t set) {
        const std::string& name = item.parts.front().name;
        switch (rest.kind) {
            case program::RestKind::timed:
                break;
            case program::RestKind::as_needed:
                if (rest.high.value == Ratio(0)) note(AssumptionKind::rest_as_needed, name);
                break;
            case program::RestKind::as_the_work:
                return last_work_;
            case program::RestKind::walk_back:
                note(AssumptionKind::walk_back_pace, name);
                return walk_back_seconds(item, set);
        }
        return in_base_units(rest.high);
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
        const bool new_set = is_new_set(item);
        if (new_set) ++total.sets;
        const Block& block = session_.blocks[block_id_];
        if (block.run == program::RunKind::as_many) total.has_open_rounds = true;
        if (is_open(amount.form)) {
            if (new_set) ++total.open_sets;
            if (amount.form == AmountForm::max || amount.form == AmountForm::build_to) return;
        }
        const bool climbs = amount.form == AmountForm::open_ladder;
        const Ratio turns = rounded(climbs ? amount.low.value : amount.high.value, per_unit);
        const std::int64_t directions = directions_of(program_, part, amount.high.unit);
        if (directions > 1) note(AssumptionKind::several_directions, part.name);
        const Ratio value = turns * Ratio(directions);
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

    static bool is_open(AmountForm form) {
        return form == AmountForm::max || form == AmountForm::at_least ||
               form == AmountForm::build_to || form == AmountForm::open_ladder;
    }

    // Sets without a rest between them are worth saying, once for each block.
    void note_missing_rests(const Block& block) {
        const bool timed =
            block.run != program::RunKind::in_turn && block.run != program::RunKind::rounds;
        if (timed) return;
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
    // The side that the whole block is done on, or both.
    Side pass_ = Side::both;
    // Seconds of the station at hand, where the block runs by them.
    std::optional<Ratio> interval_;
    // Whether the second side of a set, or of the whole block, is at hand.
    bool second_half_ = false;
    // Seconds of the last work, which a rest may last as long as.
    Ratio last_work_;
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
