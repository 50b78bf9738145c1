// Racks with weights that can be worked out by hand.

#include "compiler/loads/rack.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <set>

#include "tests/unit/loads/racks_testing.hpp"

namespace stave::loads {
namespace {

using testing::each;
using testing::plates_of;
using testing::pound;
using testing::total_of;

// A pair of each; 1.25 kg is a plate of powerlifting (IPF rules, from memory).
const std::vector<Weight> gym =
    each({Ratio(25), Ratio(20), Ratio(15), Ratio(10), Ratio(5), Ratio(5, 2), Ratio(5, 4)});
// The discs of the IWF rules: none of 1.25 kg.
const std::vector<Weight> contest =
    each({Ratio(25), Ratio(20), Ratio(15), Ratio(10), Ratio(5), Ratio(5, 2), Ratio(2), Ratio(3, 2),
          Ratio(1), Ratio(1, 2)});
// The men's bar of the IWF rules, and its two collars of 2.5 kg each.
const Ratio bar(20);
const Ratio collars(5);

struct Answer {
    std::string total;
    std::string plates;

    friend bool operator==(const Answer&, const Answer&) = default;
};

std::ostream& operator<<(std::ostream& out, const Answer& answer) {
    return out << answer.total << " = " << answer.plates;
}

Answer answer(Ratio of_bar, const std::vector<Weight>& pairs, Ratio wanted,
              Direction direction = Direction::nearest) {
    const auto choice = ReachableLoads::of_bar(of_bar, pairs).choose(wanted, direction);
    if (!choice) return {};
    return {to_decimal(total_of(of_bar, pairs, choice->ids)), plates_of(pairs, choice->ids)};
}

// (102.5 - 20) / 2 = 41.25, and with collars (102.5 - 25) / 2 = 38.75 a side; of several ways
// with as few plates the heavier one, as plates are loaded (common practice, no source).
TEST(Rack, puts_the_plates_of_a_load_on_each_side) {
    EXPECT_EQ(answer(bar, gym, Ratio(205, 2)), (Answer{"102.5", "25+15+1.25"}));
    EXPECT_EQ(answer(bar + collars, gym, Ratio(205, 2)), (Answer{"102.5", "25+10+2.5+1.25"}));
}

// 41.25 a side lies between 41 and 41.5: a tie, which goes down for safety (our choice).
TEST(Rack, goes_down_from_half_way) {
    EXPECT_EQ(answer(bar, contest, Ratio(205, 2)).total, "102");
    EXPECT_EQ(answer(bar, contest, Ratio(205, 2), Direction::down).total, "102");
    EXPECT_EQ(answer(bar, contest, Ratio(205, 2), Direction::up).total, "103");
    const auto choice =
        ReachableLoads::of_bar(bar, contest).choose(Ratio(205, 2), Direction::nearest);
    ASSERT_TRUE(choice && choice->below && choice->above);
    EXPECT_FALSE(choice->is_exact);
    EXPECT_EQ(total_of(bar, contest, *choice->below), Ratio(102));
    EXPECT_EQ(total_of(bar, contest, *choice->above), Ratio(103));
}

// 120 kg at 70, 75, 80 and 85 % (NSCA Training Load Chart, 12 to 6 reps) are 84, 90, 96 and
// 102 kg; the rest is arithmetic.
TEST(Rack, makes_the_loads_of_falling_repetitions) {
    EXPECT_EQ(answer(bar, gym, Ratio(84)), (Answer{"85", "25+5+2.5"}));
    EXPECT_EQ(answer(bar, gym, Ratio(90)), (Answer{"90", "25+10"}));
    EXPECT_EQ(answer(bar, gym, Ratio(96)), (Answer{"95", "25+10+2.5"}));
    EXPECT_EQ(answer(bar, gym, Ratio(102)), (Answer{"102.5", "25+15+1.25"}));
    EXPECT_EQ(answer(bar, gym, Ratio(84), Direction::down).total, "82.5");
    EXPECT_EQ(answer(bar, gym, Ratio(90), Direction::down).total, "90");
    EXPECT_EQ(answer(bar, gym, Ratio(96), Direction::down).total, "95");
    EXPECT_EQ(answer(bar, gym, Ratio(102), Direction::down).total, "100");
    EXPECT_EQ(answer(bar, gym, Ratio(96), Direction::up).total, "97.5");
}

// In each of them the heaviest plate that fits leads astray; sums by hand.
TEST(Rack, finds_what_taking_the_heaviest_first_would_miss) {
    const std::vector<Weight> one{{Ratio(20), 1}, {Ratio(15), 2}};
    EXPECT_EQ(answer(bar, one, Ratio(80)), (Answer{"80", "15+15"}));
    const std::vector<Weight> two{{Ratio(25), 1}, {Ratio(20), 2}, {Ratio(5), 1}};
    EXPECT_EQ(answer(bar, two, Ratio(100)), (Answer{"100", "20+20"}));
    const std::vector<Weight> three{{Ratio(10), 1}, {Ratio(6), 2}, {Ratio(1), 1}};
    EXPECT_EQ(answer(bar, three, Ratio(44)), (Answer{"44", "6+6"}));
    const std::vector<Weight> four{{Ratio(10), 1}, {Ratio(7), 3}};
    EXPECT_EQ(answer(bar, four, Ratio(62)), (Answer{"62", "7+7+7"}));
    const std::vector<Weight> five{{Ratio(10), 2}, {Ratio(9), 1}, {Ratio(8), 1}, {Ratio(1), 1}};
    EXPECT_EQ(answer(bar, five, Ratio(54)), (Answer{"54", "9+8"}));
}

// 25 + 10 and 20 + 15 are both two plates.
TEST(Rack, takes_the_fewest_plates_and_then_the_heaviest) {
    EXPECT_EQ(answer(bar, gym, Ratio(90)).plates, "25+10");
    EXPECT_EQ(answer(bar, each({Ratio(10), Ratio(5), Ratio(20)}, 4), Ratio(60)).plates, "20");
    EXPECT_EQ(answer(bar, each({Ratio(10), Ratio(15), Ratio(20)}, 2), Ratio(80)).plates, "20+10");
}

TEST(Rack, reaches_no_further_than_its_plates) {
    // 78.75 a side in all.
    EXPECT_EQ(answer(bar, gym, Ratio(500)).total, "177.5");
    EXPECT_EQ(answer(bar, gym, Ratio(500), Direction::up).total, "177.5");
    EXPECT_EQ(answer(bar, gym, Ratio(5)), (Answer{"20", ""}));
    EXPECT_EQ(answer(bar, gym, Ratio(5), Direction::down), (Answer{"20", ""}));
    EXPECT_EQ(answer(bar, {}, Ratio(60)), (Answer{"20", ""}));
}

// 45 lb are 20.41165665 kg and no 20; 135 lb are a pair of 45 on a bar of 45.
TEST(Rack, holds_pounds_and_kilograms) {
    const std::vector<Weight> pounds = each({pound * Ratio(45), pound * Ratio(25)}, 2);
    const Ratio pound_bar = pound * Ratio(45);
    const auto choice =
        ReachableLoads::of_bar(pound_bar, pounds).choose(pound * Ratio(135), Direction::nearest);
    ASSERT_TRUE(choice);
    EXPECT_TRUE(choice->is_exact);
    EXPECT_EQ(choice->ids.size(), 1U);
    // 20 + 2 x 20 = 60 kg against 20 + 2 x 20.41165665 = 60.8233133 kg.
    const std::vector<Weight> mixed{{Ratio(20), 1}, {pound * Ratio(45), 1}};
    EXPECT_EQ(answer(bar, mixed, Ratio(60)).plates, "20");
    EXPECT_EQ(answer(bar, mixed, Ratio(605, 10)).plates, "20.412");
    EXPECT_EQ(answer(bar, mixed, Ratio(604, 10)).plates, "20");
}

// A pair needs two of one weight.
TEST(Things, are_taken_one_or_two_at_once) {
    const std::vector<Weight> bells{{Ratio(24), 1}, {Ratio(8), 2}, {Ratio(16), 2}};
    const auto id = [&](std::int64_t at_once, Ratio wanted, Direction direction) {
        const auto choice = ReachableLoads::of_things(bells, at_once).choose(wanted, direction);
        return choice ? to_decimal(bells.at(choice->ids.at(0)).kilograms) : "none";
    };
    EXPECT_EQ(id(1, Ratio(21), Direction::nearest), "24");
    EXPECT_EQ(id(1, Ratio(20), Direction::nearest), "16");
    EXPECT_EQ(id(1, Ratio(20), Direction::up), "24");
    EXPECT_EQ(id(1, Ratio(23), Direction::down), "16");
    EXPECT_EQ(id(2, Ratio(24), Direction::nearest), "16");
    EXPECT_EQ(id(2, Ratio(3), Direction::down), "8");
    EXPECT_FALSE(ReachableLoads::of_things(bells, 3).choose(Ratio(8), Direction::nearest));
    EXPECT_FALSE(ReachableLoads::of_things({}, 1).choose(Ratio(8), Direction::nearest));
}

// 60 sizes that are no multiples of one another, 50 pairs of each.
TEST(Rack, of_a_hostile_size_stays_small_and_quick) {
    std::vector<Weight> pairs;
    for (std::int64_t i = 0; i < 60; ++i)
        pairs.push_back({Ratio(1'000'003 + 7919 * i * i, 100'000), 50});
    const auto start = std::chrono::steady_clock::now();
    const ReachableLoads reachable = ReachableLoads::of_bar(bar, pairs);
    const auto choice = reachable.choose(Ratio(1000), Direction::nearest);
    const auto took = std::chrono::steady_clock::now() - start;
    EXPECT_TRUE(reachable.is_cut());
    EXPECT_LE(reachable.size(), ReachableLoads::most_reachable);
    ASSERT_TRUE(choice);
    for (const std::size_t id : choice->ids)
        EXPECT_LT(id, pairs.size());
    // A debug build under a sanitizer needs a few hundredths of a second.
    EXPECT_LT(took, std::chrono::seconds(2));
}

// 60 common sizes, 50 pairs of each: the sums meet, and up to twelve of each are enough.
TEST(Rack, of_many_plain_plates_is_whole_or_says_so) {
    std::vector<Weight> pairs;
    for (std::int64_t i = 1; i <= 60; ++i)
        pairs.push_back({Ratio(i, 2), 50});
    const ReachableLoads reachable = ReachableLoads::of_bar(bar, pairs);
    EXPECT_LE(reachable.size(), ReachableLoads::most_reachable);
    const auto choice = reachable.choose(Ratio(100), Direction::nearest);
    ASSERT_TRUE(choice);
    EXPECT_TRUE(choice->is_exact);
    EXPECT_EQ(total_of(bar, pairs, choice->ids), Ratio(100));
}

TEST(Rack, takes_no_weight_of_nothing) {
    const std::vector<Weight> pairs{{Ratio(0), 50}, {Ratio(10), 0}, {Ratio(5), 1}};
    const ReachableLoads reachable = ReachableLoads::of_bar(bar, pairs);
    EXPECT_EQ(reachable.size(), 2U);
    EXPECT_EQ(answer(bar, pairs, Ratio(100)), (Answer{"30", "5"}));
}

}  // namespace
}  // namespace stave::loads
