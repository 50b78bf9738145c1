#include <algorithm>
#include <utility>

#include "compiler/timeline/movement_totals.hpp"
#include "compiler/timeline/pace.hpp"
#include "compiler/timeline/timeline.hpp"

namespace stave::timeline {

namespace {

using program::AmountForm;
using program::Block;
using program::Item;
using program::Part;
using program::Rest;
using program::SideRule;

// Times are kept to the millisecond.
constexpr std::int64_t per_second = 1000;

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
            const bool last_block = i + 1 == session_.blocks.size();
            if (!last_block && !block.items.empty()) {
                add_rest(block.rest_after, last_item_of(block), 0, RestPlace::blocks);
            }
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

    static std::uint32_t last_item_of(const Block& block) {
        return static_cast<std::uint32_t>(block.items.size() - 1);
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
        push({EntryKind::more_rounds,
              timeline_.total_seconds,
              rounded(left, per_second),
              block_id_,
              0,
              0,
              0,
              Side::both,
              RestPlace::rounds,
              {}});
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
                add_rest_line(block, i, round);
                start = timeline_.total_seconds;
            }
        }
    }

    // Where the clock gives the rests a `rest` line comes on top.
    void add_rest_line(const Block& block, std::uint32_t item_id, std::uint32_t round) {
        const auto& own = block.items[item_id].rest_after;
        if (item_id != last_item_of(block)) {
            add_rest(own, item_id, round, RestPlace::movements);
        } else if (round + 1 < block.rounds) {
            add_rest(block.rest_between_rounds ? block.rest_between_rounds : own, item_id, round,
                     RestPlace::rounds);
        }
    }

    void fill_interval(const Block& block, Ratio start, std::uint32_t item_id, std::uint32_t set) {
        const Ratio length = rounded(in_base_units(block.time), per_second);
        const Ratio left = length - (timeline_.total_seconds - start);
        if (left <= Ratio(0)) return;
        push({EntryKind::rest,
              timeline_.total_seconds,
              left,
              block_id_,
              item_id,
              0,
              set,
              Side::both,
              RestPlace::interval,
              {}});
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
                const bool last_item = i == last_item_of(block);
                if (last_item && round + 1 == block.rounds) continue;
                // A rest between rounds stands in place of the time off.
                if (!last_item || !block.rest_between_rounds) {
                    push({EntryKind::rest,
                          timeline_.total_seconds,
                          off,
                          block_id_,
                          i,
                          0,
                          round,
                          Side::both,
                          RestPlace::interval,
                          {}});
                }
                add_rest_line(block, i, round);
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
            round_work_ = Ratio(0);
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
        set_work_ = Ratio(0);
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
                note_of(item, AssumptionKind::counted_as_reps, part.name);
            }
            const auto say = [&](AssumptionKind kind) { note_of(item, kind, part.name); };
            const Ratio work = rounded(seconds_of(item, part, set), per_second);
            const Ratio pauses =
                interval_ ? Ratio(0) : rounded(pause_seconds(item, part, set, say), per_second);
            push({EntryKind::work, timeline_.total_seconds, work + pauses, block_id_, item_id,
                  part_id, set, side, RestPlace::sets, pauses});
            timeline_.work_seconds += work;
            set_work_ += work;
            round_work_ += work;
            add_to_totals(
                program_,
                {session_.blocks[block_id_], item, part, set, side, is_new_set(item), work},
                timeline_.movements, say);
        }
    }

    // An interval's time is shared by what is done in it.
    Ratio seconds_of(const Item& item, const Part& part, std::uint32_t set) {
        const auto say = [&](AssumptionKind kind) { note_of(item, kind, part.name); };
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
            note_of(item, AssumptionKind::range_counts_upper_end, item.parts.front().name);
        }
        push({EntryKind::rest,
              timeline_.total_seconds,
              rounded(rest_length(*rest, item, set, place), per_second),
              block_id_,
              item_id,
              0,
              set,
              Side::both,
              place,
              {}});
    }

    Ratio rest_length(const Rest& rest, const Item& item, std::uint32_t set, RestPlace place) {
        const std::string& name = item.parts.front().name;
        switch (rest.kind) {
            case program::RestKind::timed:
                break;
            case program::RestKind::as_needed:
                if (rest.high.value != Ratio(0)) break;
                note_of(item, AssumptionKind::rest_as_needed, name);
                return needed_rest();
            case program::RestKind::as_the_work:
                return place == RestPlace::rounds ? round_work_ : set_work_;
            case program::RestKind::walk_back:
                note_of(item, AssumptionKind::walk_back_pace, name);
                return walk_back_seconds(item, set);
            case program::RestKind::distance:
                return way_seconds(rest.high, rest.doing,
                                   [&](AssumptionKind kind) { note(kind, rest.doing); });
        }
        return in_base_units(rest.high);
    }

    void push(Entry entry) {
        timeline_.total_seconds += entry.length_seconds;
        timeline_.entries.push_back(entry);
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
                note_of(item, AssumptionKind::no_rest_said, item.parts.front().name);
            }
        }
    }

    // What stands in a blank's place is for the coach to say, and so is how long it takes.
    void note_of(const Item& item, AssumptionKind kind, const std::string& movement) {
        if (!item.is_blank()) note(kind, movement);
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
    // Seconds of work in the set and in the round at hand, which a rest may last as long
    // as.
    Ratio set_work_;
    Ratio round_work_;
};

}  // namespace

VolumeLoad volume_load(const Timeline& timeline) {
    VolumeLoad sum;
    for (const MovementTotal& total : timeline.movements)
        add(total.volume, sum);
    return sum;
}

std::int64_t minutes(const Timeline& timeline) {
    constexpr std::int64_t seconds_per_minute = 60;
    return std::max<std::int64_t>(1, ceil(timeline.total_seconds / Ratio(seconds_per_minute)));
}

Timeline expand(const program::Program& program, const program::Session& session) {
    return Expander(program, session).run();
}

}  // namespace stave::timeline
