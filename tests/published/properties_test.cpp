// Laws that hold for every session, whatever it says, tried on made-up ones. They
// follow from what the quantities mean; no source is needed.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "tests/fuzz/varied_sessions.hpp"
#include "tests/published/analysed.hpp"

namespace stave {
namespace {

using stave::testing::analysed;
using stave::testing::Chance;
using stave::testing::timed;
using timeline::MovementTotal;
using timeline::Timeline;

constexpr int sessions_tried = 300;

// No zones are known here.
std::string session_without_zone(Chance& chance, int number) {
    std::string text = stave::testing::session(chance, number);
    const std::size_t zone = text.find(", Europe/Lisbon");
    return zone == std::string::npos ? text : text.erase(zone, 15);
}

Ratio in_all(const MovementTotal& total) {
    return total.both + total.left + total.right;
}

const MovementTotal& same_in(const Timeline& timeline, const MovementTotal& wanted) {
    return *std::ranges::find_if(timeline.movements, [&](const MovementTotal& total) {
        return total.name == wanted.name && total.unit == wanted.unit;
    });
}

TEST(Law, pounds_to_kilograms_and_back_give_the_pounds) {
    Chance chance(1);
    for (int i = 0; i < 2000; ++i) {
        const Ratio pounds(chance.between(1, 100'000), chance.between(1, 1000));
        const Quantity kilograms = convert({pounds, Unit::pound}, Unit::kilogram);
        EXPECT_EQ(convert(kilograms, Unit::pound).value, pounds);
    }
}

TEST(Law, the_order_of_sets_changes_neither_repetitions_nor_tonnage) {
    Chance chance(2);
    for (int i = 0; i < sessions_tried; ++i) {
        // Repetitions and their loads, a pair for each set.
        std::vector<std::array<int, 2>> sets;
        for (int set = chance.between(3, 6); set > 0; --set)
            sets.push_back({chance.between(1, 20), chance.between(5, 200)});
        const std::string unit = chance.one_in(2) ? "kg" : "lb";
        const auto text = [&] {
            std::string reps;
            std::string loads;
            for (const auto& [count, load] : sets) {
                reps += '-' + std::to_string(count);
                loads += '-' + std::to_string(load);
            }
            return "session: A\nsets: rest 1 min\nsquat: " + reps.substr(1) + " @ " +
                   loads.substr(1) + ' ' + unit + '\n';
        };
        const Timeline before = timed(text());
        for (std::size_t last = sets.size() - 1; last > 0; --last)
            std::swap(sets[last], sets[chance.pick(last + 1)]);
        const Timeline after = timed(text());
        EXPECT_EQ(in_all(before.movements.at(0)), in_all(after.movements.at(0))) << text();
        EXPECT_EQ(before.movements.at(0).volume.kilograms.all(),
                  after.movements.at(0).volume.kilograms.all())
            << text();
        EXPECT_EQ(before.total_seconds, after.total_seconds) << text();
    }
}

TEST(Law, two_rounds_are_twice_one_round_and_one_rest) {
    Chance chance(3);
    for (int i = 0; i < sessions_tried; ++i) {
        std::string lines;
        for (int line = chance.between(1, 5); line > 0; --line)
            lines += stave::testing::round_line(chance);
        const int rest = chance.between(1, 300);
        const std::string head = ", rest " + std::to_string(rest) + " s between rounds\n";
        const Timeline one = timed(fmt::format("session: A\ncircuit: 1 round{}{}", head, lines));
        const Timeline two = timed(fmt::format("session: A\ncircuit: 2 rounds{}{}", head, lines));
        EXPECT_EQ(two.total_seconds, one.total_seconds + one.total_seconds + Ratio(rest)) << lines;
        EXPECT_EQ(two.work_seconds, one.work_seconds + one.work_seconds) << lines;
        EXPECT_EQ(two.sets, 2 * one.sets) << lines;
        ASSERT_EQ(one.movements.size(), two.movements.size());
        for (const MovementTotal& total : one.movements) {
            const MovementTotal& twice = same_in(two, total);
            EXPECT_EQ(twice.both, total.both + total.both) << lines;
            EXPECT_EQ(twice.left, total.left + total.left) << lines;
            EXPECT_EQ(twice.right, total.right + total.right) << lines;
            EXPECT_EQ(twice.volume.kilograms.all(),
                      total.volume.kilograms.all() + total.volume.kilograms.all())
                << lines;
        }
    }
}

// What an item asks for by itself, without the timeline: all of it, and what
// belongs to the left side of it.
struct Asked {
    Ratio all;
    Ratio left;
    Ratio right;
};

// The upper end of a range, the first rung of an open ladder; of what ends in max only
// what comes before it is known.
Ratio counted(const program::Amount& amount) {
    using program::AmountForm;
    return amount.form == AmountForm::open_ladder ? amount.low.value : amount.high.value;
}

void add(Asked& sum, Ratio value, program::Sides sides, bool twice) {
    using program::SideRule;
    const SideRule rule = sides.rule;
    switch (rule) {
        case SideRule::each:
        case SideRule::swapped:
            sum.all += value + value;
            // Ways and swapped loads are no sides of the body.
            if (rule == SideRule::swapped || sides.word == program::SideWord::way) return;
            sum.left += value;
            sum.right += value;
            return;
        case SideRule::there_and_back:
            // Both ways in each pass of a whole block by sides.
            sum.all += (value + value) * Ratio(twice ? 2 : 1);
            return;
        default:
            break;
    }
    if (rule == SideRule::left || rule == SideRule::right) {
        sum.all += value;
        (rule == SideRule::left ? sum.left : sum.right) += value;
        return;
    }
    // A whole block on one side, then the other, does what has no side twice.
    const Ratio done = twice ? value + value : value;
    sum.all += done;
    if (rule != SideRule::alternating) return;
    sum.left += done / Ratio(2);
    sum.right += done / Ratio(2);
}

Asked asked(const program::Session& session, const MovementTotal& total) {
    Asked sum;
    for (const program::Block& block : session.blocks) {
        for (const program::Item& item : block.items) {
            for (const program::Part& part : item.parts) {
                if (part.folded_name != total.folded_name) continue;
                for (const program::Amount& amount : part.amounts) {
                    const Unit unit = amount.high.unit;
                    const bool is_count = dimension(unit) == Dimension::count;
                    const bool fits =
                        is_count ? unit == total.unit : dimension(unit) == dimension(total.unit);
                    if (!fits) continue;
                    const Ratio scale =
                        in_base_units({Ratio(1), unit}) / in_base_units({Ratio(1), total.unit});
                    add(sum, counted(amount) * scale, item.sides, block.by_sides);
                }
            }
        }
    }
    return sum;
}

TEST(Law, what_is_asked_for_is_the_sum_of_left_right_and_both) {
    Chance chance(4);
    for (int i = 0; i < sessions_tried; ++i) {
        const auto snapshot = analysed(session_without_zone(chance, i));
        ASSERT_EQ(snapshot.timelines.size(), 1U);
        for (const MovementTotal& total : snapshot.timelines[0].movements) {
            const Asked wanted = asked(snapshot.program.sessions[0], total);
            EXPECT_EQ(in_all(total), wanted.all) << snapshot.source->text() << total.name;
            EXPECT_EQ(total.left, wanted.left) << snapshot.source->text() << total.name;
            EXPECT_EQ(total.right, wanted.right) << snapshot.source->text() << total.name;
        }
    }
}

void expect_equal(const timeline::Sided& left, const timeline::Sided& right,
                  const std::string& text) {
    EXPECT_EQ(left.both, right.both) << text;
    EXPECT_EQ(left.left, right.left) << text;
    EXPECT_EQ(left.right, right.right) << text;
}

// The kilograms of a session are those of its movements, on each side, and what stands in the
// units of its loads is the same.
TEST(Law, volume_load_is_the_sum_of_left_right_and_both_and_of_its_units) {
    Chance chance(6);
    for (int i = 0; i < sessions_tried; ++i) {
        const std::string text = session_without_zone(chance, i);
        const Timeline timeline = timed(text);
        timeline::Sided kilograms;
        Ratio reps;
        for (const MovementTotal& total : timeline.movements) {
            kilograms.both += total.volume.kilograms.both;
            kilograms.left += total.volume.kilograms.left;
            kilograms.right += total.volume.kilograms.right;
            reps += total.volume.reps;
            EXPECT_EQ(total.weighed_sets > 0, total.volume.reps > Ratio(0)) << text;
        }
        const timeline::VolumeLoad all = volume_load(timeline);
        expect_equal(all.kilograms, kilograms, text);
        EXPECT_EQ(all.reps, reps) << text;
        Ratio written;
        for (const Quantity& moved : all.as_written)
            written += in_base_units(moved);
        EXPECT_EQ(all.kilograms.all(), written) << text;
    }
}

TEST(Law, entries_follow_one_another_and_add_up) {
    Chance chance(5);
    for (int i = 0; i < sessions_tried; ++i) {
        const std::string text = session_without_zone(chance, i);
        const Timeline timeline = timed(text);
        Ratio end;
        Ratio work;
        // Of as many rounds as possible, behind the first.
        Ratio more;
        for (const timeline::Entry& entry : timeline.entries) {
            EXPECT_EQ(entry.start_seconds, end) << text;
            end += entry.length_seconds;
            if (entry.kind == timeline::EntryKind::work) {
                work += entry.length_seconds - entry.pause_seconds;
            }
            if (entry.kind == timeline::EntryKind::more_rounds) more += entry.length_seconds;
        }
        EXPECT_EQ(timeline.total_seconds, end) << text;
        EXPECT_EQ(timeline.work_seconds, work + more) << text;
        Ratio by_movement;
        for (const MovementTotal& total : timeline.movements)
            by_movement += total.work_seconds;
        EXPECT_EQ(by_movement, work) << text;
    }
}

}  // namespace
}  // namespace stave
