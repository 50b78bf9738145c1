#include <fmt/format.h>

#include "tests/unit/schedule/planned.hpp"

namespace stave {
namespace {

using testing::held;
using testing::planned;
using testing::problems;

// What the first movement of the first block asks for on each day, by the words of a card.
std::string doses(const std::string& session, const std::string& plan, int weeks = 4) {
    const auto snapshot = planned(fmt::format(
        "session 1: Ebb\n{}plan P:\nfrom: 2026-11-30\nweeks: {}\nMonday: 18:30, session 1\n{}",
        session, weeks, plan));
    EXPECT_FALSE(snapshot.sink.has_errors()) << problems(snapshot);
    std::string text;
    for (std::size_t i = 0; i < snapshot.season.size(); ++i) {
        const program::Session one = held(snapshot, i);
        const program::Block& block = one.blocks.front();
        const program::Item& item = block.items.front();
        text += (i > 0 ? " | " : "");
        if (block.by_rounds) text += fmt::format("{} rounds ", block.rounds);
        text += fmt::format("{} x {}", item.set_count(),
                            to_decimal(item.parts.front().amounts.front().low.value));
        for (const program::Load& load : item.loads) {
            for (const program::LoadTerm& term : load.terms)
                text += " @ " + to_decimal(term.low.value);
        }
    }
    return text;
}

// k steps after k weeks: an arithmetic sequence, first value plus k times the step.
TEST(Growth, AddsItsStepEachWeek) {
    EXPECT_EQ(doses("deadlift: 3 x 5 @ 100 kg\n", "grow deadlift: 2.5 kg each week\n"),
              "3 x 5 @ 100 | 3 x 5 @ 102.5 | 3 x 5 @ 105 | 3 x 5 @ 107.5");
    EXPECT_EQ(doses("deadlift: 3 x 5 @ 70 %\n", "grow deadlift: 2.5 % of max each week\n"),
              "3 x 5 @ 70 | 3 x 5 @ 72.5 | 3 x 5 @ 75 | 3 x 5 @ 77.5");
    EXPECT_EQ(doses("pull-up: 3 x 10\n", "grow pull-up: 1 rep each week\n"),
              "3 x 10 | 3 x 11 | 3 x 12 | 3 x 13");
    EXPECT_EQ(doses("pull-up: 3 x 10\n", "grow pull-up: 1 set each week\n"),
              "3 x 10 | 4 x 10 | 5 x 10 | 6 x 10");
    EXPECT_EQ(
        doses("circuit Legs: 2 rounds\nstep-up: 8 each leg\n", "grow Legs: 1 round each week\n"),
        "2 rounds 2 x 8 | 3 rounds 3 x 8 | 4 rounds 4 x 8 | 5 rounds 5 x 8");
}

TEST(Growth, StopsAtItsLimit) {
    EXPECT_EQ(doses("pull-up: 3 x 10\n", "grow pull-up: 1 rep each week, up to 12\n"),
              "3 x 10 | 3 x 11 | 3 x 12 | 3 x 12");
    // A limit between two steps is where it ends.
    EXPECT_EQ(
        doses("deadlift: 3 x 5 @ 100 kg\n", "grow deadlift: 2.5 kg each week, up to 104 kg\n"),
        "3 x 5 @ 100 | 3 x 5 @ 102.5 | 3 x 5 @ 104 | 3 x 5 @ 104");
}

// A tenth of 100 kg is 10 kg each week, not 110 kg times 1.1.
TEST(Growth, OfAShareIsNotCompounded) {
    EXPECT_EQ(doses("deadlift: 3 x 5 @ 100 kg\n", "grow deadlift: 10 % of load each week\n"),
              "3 x 5 @ 100 | 3 x 5 @ 110 | 3 x 5 @ 120 | 3 x 5 @ 130");
    // 8 % of 45 s are 3.6 s: 48.6, 52.2 and 55.8 s, rounded to whole seconds.
    EXPECT_EQ(doses("plank: 3 x 45 s\n", "grow plank: 8 % of time each week\n"),
              "3 x 45 | 3 x 49 | 3 x 52 | 3 x 56");
}

// NIST SP 811: 1 lb = 0.45359237 kg, so 2.5 kg are 5.51 lb; rounded to half pounds.
TEST(Growth, InAnotherUnitIsRoundedToWhatCanBeLoaded) {
    EXPECT_EQ(doses("deadlift: 3 x 5 @ 200 lb\n", "grow deadlift: 2.5 kg each week\n", 3),
              "3 x 5 @ 200 | 3 x 5 @ 205.5 | 3 x 5 @ 211");
}

TEST(Growth, LeavesWarmUpAndCoolDown) {
    EXPECT_EQ(doses("warm-up:\ndeadlift: 5 @ 60 kg\nsets:\ndeadlift: 3 x 5 @ 100 kg\n",
                    "grow deadlift: 5 kg each week\nlighter: week 2 by 50 %\n", 3),
              "1 x 5 @ 60 | 1 x 5 @ 60 | 1 x 5 @ 60");
}

TEST(Growth, GoesInWaves) {
    EXPECT_EQ(doses("deadlift: 3 x 5 @ 100 kg\n",
                    "grow deadlift: 5 kg each week\nwaves: 3 weeks, each wave 1 step up\n", 7),
              "3 x 5 @ 100 | 3 x 5 @ 105 | 3 x 5 @ 110 | 3 x 5 @ 105 | 3 x 5 @ 110 | 3 x 5 @ 115 "
              "| 3 x 5 @ 110");
}

// Common practice, no source: a lighter week keeps its loads and loses sets; the weeks
// behind it go on where those before it stood.
TEST(LighterWeek, LosesSetsAndNotLoad) {
    EXPECT_EQ(doses("deadlift: 5 x 5 @ 100 kg\n",
                    "grow deadlift: 2.5 kg each week\nlighter: week 3 by 40 %\n"),
              "5 x 5 @ 100 | 5 x 5 @ 102.5 | 3 x 5 @ 102.5 | 5 x 5 @ 105");
    EXPECT_EQ(
        doses("circuit Legs: 3 rounds\nstep-up: 8 each leg\n", "lighter: every 2 weeks by 50 %\n"),
        "3 rounds 3 x 8 | 1 rounds 1 x 8 | 3 rounds 3 x 8 | 1 rounds 1 x 8");
    // One set alone is shortened: 20 min less 40 %.
    EXPECT_EQ(doses("easy run: 20 min\n", "lighter: week 2 by 40 %\n", 2), "1 x 20 | 1 x 12");
}

TEST(Groups, DoTheirOwnLine) {
    const auto snapshot = planned(
        "session 1: Ebb\ndeadlift: 3 x 3 @ 75 %\n  group B: 2 x 5\nplan P:\nfrom: "
        "2026-11-30\nweeks: 1\nMonday: 18:30, session 1, group A\nTuesday: 18:30, session 1, group "
        "B\n");
    ASSERT_EQ(problems(snapshot), "");
    const auto first_item = [&](std::size_t day) {
        return held(snapshot, day).blocks.front().items.front();
    };
    EXPECT_EQ(to_decimal(first_item(0).parts.front().amounts.front().low.value), "3");
    EXPECT_TRUE(first_item(0).substitutes.empty());
    EXPECT_EQ(to_decimal(first_item(1).parts.front().amounts.front().low.value), "5");
    EXPECT_TRUE(first_item(1).substitutes.empty());
    // The load is that of the movement's line.
    ASSERT_EQ(first_item(1).loads.size(), 1U);
    EXPECT_EQ(to_decimal(first_item(1).loads.front().terms.front().low.value), "75");
}

TEST(Groups, StepOntoTheSameBox) {
    const auto snapshot = planned(
        "session 1: Ebb\nstep-up: 3 x 8 each leg, from 30 cm\n  group B: 2 x 5 each leg\nplan "
        "P:\nfrom: 2026-11-30\nweeks: 1\nTuesday: 18:30, session 1, group B\n");
    ASSERT_EQ(snapshot.season.size(), 1U) << problems(snapshot);
    const auto item = held(snapshot, 0).blocks.front().items.front();
    ASSERT_NE(item.find<program::Height>(), nullptr);
    EXPECT_EQ(to_decimal(item.find<program::Height>()->height.value), "30");
}

TEST(Groups, LoseNoWordThatStandsBelowTheirLine) {
    const auto snapshot = planned(
        "session 1: Ebb\ndeadlift: 3 x 3 @ 75 %\n  group B: 2 x 5\n  stop: sharp pain\n  cue: "
        "push\nplan P:\nfrom: 2026-11-30\nweeks: 1\nMonday: 18:30, session 1, group A\nTuesday: "
        "18:30, session 1, group B\n");
    ASSERT_EQ(snapshot.season.size(), 2U) << problems(snapshot);
    for (const std::size_t day : {0U, 1U}) {
        const auto item = held(snapshot, day).blocks.front().items.front();
        EXPECT_EQ(item.stops, std::vector<std::string>{"sharp pain"});
        EXPECT_EQ(item.cues, std::vector<std::string>{"push"});
    }
}

// A warning of the speed must not hide that it ends nowhere.
TEST(Growth, ThatGoesTooFarIsRefusedHoweverFastItIs) {
    for (const char* growth :
         {"grow deadlift: 50 sets each week", "grow deadlift: 900 kg each week"}) {
        const auto snapshot = planned(fmt::format(
            "session 1: Ebb\ndeadlift: 3 x 5 @ 100 kg\nplan P:\nfrom: 2026-11-30\nweeks: 8\n"
            "Monday: 18:30, session 1\n{}\n",
            growth));
        EXPECT_TRUE(problems(snapshot).contains("grow-too-far")) << growth;
    }
}

}  // namespace
}  // namespace stave
