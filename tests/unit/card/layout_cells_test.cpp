// What stands in the cells of a table, and where. The arrangement is our own.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "tests/unit/card/laid_out.hpp"
#include "tests/unit/card/page_checks.hpp"

namespace stave::card {
namespace {

using namespace test;

TEST(Cells, SidedWorkHasABoxForEachSideOfEachSet) {
    Fonts fonts;
    program::Item item = stave::test::movement("get-up", stave::test::each_of({3, 2, 1}));
    EXPECT_EQ(tick_boxes(page_of(of_item(item), fonts)), 3U);
    item.sides = stave::test::each_side();
    const Page page = page_of(of_item(item), fonts);
    EXPECT_EQ(tick_boxes(page), 6U);
    EXPECT_TRUE(has_text(page, "L"));
    EXPECT_TRUE(has_text(page, "R"));
    item.sides.rule = program::SideRule::alternating;
    EXPECT_EQ(tick_boxes(page_of(of_item(item), fonts)), 3U);
}

TEST(Cells, ManyEqualSetsAreOneNumberAndARowOfBoxes) {
    Fonts fonts;
    const Page page = page_of(
        of_item(stave::test::movement("swing", stave::test::times(10, stave::test::exactly(8)))),
        fonts);
    EXPECT_TRUE(has_text(page, "10\u00A0×"));
    EXPECT_EQ(tick_boxes(page), 10U);
}

TEST(Cells, AHundredSetsAreTallied) {
    Fonts fonts;
    const Page page = page_of(
        of_item(stave::test::movement("swing", stave::test::times(100, stave::test::exactly(8)))),
        fonts);
    EXPECT_TRUE(has_text(page, "100\u00A0×"));
    EXPECT_TRUE(has_text(page, "tally"));
    EXPECT_EQ(tick_boxes(page), 0U);
}

TEST(Cells, LoadsThatChangeStandInTheirCells) {
    Fonts fonts;
    program::Item item = stave::test::movement("squat", stave::test::each_of({5, 5, 5}));
    item.loads = stave::test::weights({40, 45, 50});
    const Page changing = page_of(of_item(item), fonts);
    EXPECT_TRUE(has_text(changing, "45\u00A0kg"));
    item.loads = stave::test::weights({40});
    const std::vector<Text> texts = texts_of(page_of(of_item(item), fonts));
    EXPECT_EQ(std::ranges::count(texts, std::string("40\u00A0kg"), &Text::text), 1);
}

TEST(Cells, NumbersOfABlockStandUnderOneAnother) {
    Fonts fonts;
    program::Item sided = stave::test::movement("get-up", stave::test::each_of({37, 37, 37}));
    sided.sides = stave::test::each_side();
    const Page page = page_of(
        of_blocks({stave::test::rounds(
            stave::test::block(
                program::BlockKind::circuit, "",
                {sided, stave::test::movement("squat", stave::test::each_of({37, 37, 37}))}),
            3)}),
        fonts);
    const std::vector<Text> numbers = all_of(page, "37");
    ASSERT_EQ(numbers.size(), 6U);
    for (std::size_t set = 0; set < 3; ++set)
        EXPECT_EQ(numbers[set].x, numbers[set + 3].x);
}

TEST(Cells, AWordOfAUnitStandsBelowItsNumberAndASignBesideIt) {
    Fonts fonts;
    for (const auto& [unit, word, below] :
         {std::tuple{Unit::steps, "steps", true}, std::tuple{Unit::second, "s", false}}) {
        const Page page = page_of(
            of_item(stave::test::movement("carry", stave::test::each_of({42}, unit))), fonts);
        const std::vector<Text> number = all_of(page, "42");
        const std::vector<Text> units = all_of(page, word);
        ASSERT_EQ(number.size(), 1U);
        ASSERT_GE(units.size(), 1U);
        EXPECT_EQ(units.front().y > number.front().y, below) << word;
    }
}

TEST(Cells, EveryRowOfCellsHasItsNumbersOfSets) {
    Fonts fonts;
    const Page page = page_of(
        of_item(stave::test::movement(
            "deadlift", stave::test::each_of({29, 28, 27, 26, 25, 24, 23, 22, 21, 20, 19, 18}))),
        fonts);
    for (int set = 1; set <= 12; ++set) {
        const std::vector<Text> numbers = all_of(page, std::to_string(set));
        const std::vector<Text> amounts = all_of(page, std::to_string(30 - set));
        ASSERT_EQ(amounts.size(), 1U) << set;
        EXPECT_TRUE(std::ranges::any_of(numbers, [&](const Text& number) {
            return number.x == amounts[0].x && number.y < amounts[0].y &&
                   amounts[0].y - number.y < points(45);
        })) << set;
    }
}

// The wider item decides for both: its boxes have no room before its numbers.
TEST(Cells, OneArrangementHoldsForTheWholeBlock) {
    Fonts fonts;
    program::Item wide = stave::test::movement("carry", stave::test::each_of({40, 40, 40, 40}));
    wide.sides = stave::test::each_side();
    const program::Item narrow =
        stave::test::movement("walk", stave::test::each_of({30, 30, 30, 30}, Unit::metre));
    const Page page = page_of(
        of_blocks({stave::test::block(program::BlockKind::sets, "", {wide, narrow})}), fonts);
    for (const char* amount : {"40", "30"}) {
        const std::vector<Text> numbers = all_of(page, amount);
        ASSERT_EQ(numbers.size(), 4U);
        EXPECT_TRUE(std::ranges::any_of(page.primitives, [&](const Primitive& primitive) {
            const auto* box = std::get_if<Box>(&primitive);
            return box != nullptr && box->fill_grey < 0 && box->y > numbers[0].y &&
                   box->y < numbers[0].y + points(20) && box->x < numbers[0].x + points(2);
        })) << amount;
    }
}

TEST(Cells, MinutesAndSecondsStandThereAsAClock) {
    Fonts fonts;
    const Page page = page_of(
        of_item(stave::test::movement("hang", stave::test::each_of({150, 60}, Unit::second))),
        fonts);
    EXPECT_TRUE(has_text(page, "2:30"));
    EXPECT_TRUE(has_text(page, "60"));
}

// A circuit of two rounds, all of it right and then all of it left.
Sample of_passes(std::vector<program::Item> items) {
    program::Block block = stave::test::rounds(
        stave::test::block(program::BlockKind::circuit, "", std::move(items)), 2);
    block.by_sides = block.right_first = true;
    return of_blocks({block});
}

TEST(Cells, ABlockOnOneSideFirstHasAColumnForEachRoundOfEachSide) {
    Fonts fonts;
    program::Item sided = stave::test::movement("get-up", stave::test::each_of({4, 3}));
    sided.sides = stave::test::each_side();
    program::Item left = stave::test::movement("step-down", stave::test::each_of({49, 49}));
    left.sides.rule = program::SideRule::left;
    const Page page = page_of(
        of_passes({sided, stave::test::movement("squat", stave::test::each_of({48, 48})), left}),
        fonts);
    Centipoints x = 0;
    for (const char* number : {"R1", "R2", "L1", "L2"}) {
        const std::vector<Text> heads = all_of(page, number);
        ASSERT_EQ(heads.size(), 1U) << number;
        EXPECT_GT(heads[0].x, x) << number;
        x = heads[0].x;
    }
    EXPECT_EQ(all_of(page, "48").size(), 4U);
    EXPECT_EQ(all_of(page, "49").size(), 2U);
    EXPECT_EQ(tick_boxes(page), 10U);
    EXPECT_FALSE(has_text(page, "each\u00A0side"));
}

TEST(Cells, EachWayIsTickedByNumbersNotBySides) {
    Fonts fonts;
    program::Item item = stave::test::movement("hip circle", stave::test::each_of({6, 6}));
    item.sides = stave::test::each_side(program::SideWord::way);
    EXPECT_FALSE(has_text(page_of(of_item(item), fonts), "L"));
}

TEST(Cells, BoxesOfRoundsThatMayBeLeftOutAreDotted) {
    Fonts fonts;
    program::Block block = stave::test::rounds(
        stave::test::block(program::BlockKind::circuit, "",
                           {stave::test::movement("squat", stave::test::each_of({8, 8, 8, 8}))}),
        4);
    block.least_rounds = 3;
    const Page page = page_of(of_blocks({block}), fonts);
    EXPECT_EQ(tick_boxes(page), 3U);
    EXPECT_TRUE(has_text(page, "if good"));
}

TEST(Cells, NumbersOfSetsStandOnlyOverCells) {
    Fonts fonts;
    const Page page = page_of(
        of_blocks({stave::test::block(
            program::BlockKind::sets, "",
            {stave::test::movement("swing", stave::test::times(12, stave::test::exactly(48))),
             stave::test::movement("squat", stave::test::each_of({37, 36}))})}),
        fonts);
    const Text alike = all_of(page, "48").at(0);
    const Text second = all_of(page, "36").at(0);
    std::vector<Text> numbers = all_of(page, "2");
    std::erase_if(numbers, [&](const Text& number) { return number.x != second.x; });
    ASSERT_EQ(numbers.size(), 1U);
    EXPECT_GT(numbers[0].y, alike.y);
    EXPECT_LT(numbers[0].y, second.y);
}

TEST(Cells, WhatIsSharedByTheLoadsStandsOnceBesideTheName) {
    Fonts fonts;
    program::Item item = stave::test::movement("pull-up", stave::test::each_of({8, 6}));
    for (const int less : {30, 20}) {
        program::LoadTerm term = stave::test::own_weight();
        term.shift = {{true, {less, Unit::kilogram}}};
        item.loads.push_back({{term}});
    }
    const Page page = page_of(of_item(item), fonts);
    EXPECT_TRUE(has_text(page, "bodyweight"));
    EXPECT_TRUE(has_text(page, "minus 20\u00A0kg"));
}

TEST(Cells, TheLogAsksForWhatIsOpen) {
    Fonts fonts;
    const auto asks_for = [&](program::Amount amount, const std::string& unit) {
        return has_text(page_of(of_item(stave::test::movement("row", {amount})), fonts), unit);
    };
    EXPECT_TRUE(asks_for(stave::test::exactly(500, Unit::metre), "min:s"));
    EXPECT_TRUE(asks_for(stave::test::exactly(15, Unit::kilocalorie), "min:s"));
    EXPECT_TRUE(asks_for(stave::test::most(Unit::steps), "steps"));
    EXPECT_TRUE(asks_for(stave::test::exactly(8), "reps"));
    EXPECT_FALSE(asks_for({program::AmountForm::best_of, {3}, {3}}, "reps"));
    program::Item item = stave::test::movement("squat", stave::test::each_of({5}));
    item.loads = {{{stave::test::weight(75, Unit::percent)}}};
    item.loads[0].terms[0].kind = program::LoadKind::share_of_max;
    EXPECT_TRUE(has_text(page_of(of_item(item), fonts), "kg"));
}

TEST(Cells, TheLogAsksForTheWeightOfAnOpenSetToo) {
    Fonts fonts;
    program::Item item = stave::test::movement("squat", {stave::test::most()});
    item.loads = {{{stave::test::weight(85, Unit::percent)}}};
    item.loads[0].terms[0].kind = program::LoadKind::share_of_max;
    const Page page = page_of(of_item(item), fonts);
    ASSERT_EQ(all_of(page, "kg").size(), 1U);
    ASSERT_EQ(all_of(page, "reps").size(), 1U);
    EXPECT_LT(all_of(page, "kg")[0].y, all_of(page, "reps")[0].y);
    // What is written is not asked for again.
    item.loads = stave::test::weights({80});
    EXPECT_FALSE(has_text(page_of(of_item(item), fonts), "kg"));
}

// Nobody knows yet what is done there, on which side and what is counted.
TEST(Cells, ABlankHasNoBoxesSidesNorLog) {
    Fonts fonts;
    const Quantity jumps{8, Unit::reps};
    program::Item item = stave::test::movement(
        "Ask the coach", stave::test::times(3, {program::AmountForm::blank, jumps, jumps}));
    item.sides = stave::test::each_side();
    const Page page = page_of(of_item(item), fonts);
    EXPECT_EQ(tick_boxes(page), 0U);
    EXPECT_FALSE(has_text(page, "reps"));
    EXPECT_FALSE(has_text(page, "LOG"));
    EXPECT_EQ(test::packed_text(page).find("eachside"), std::string::npos);
}

TEST(Cells, WhatSomebodyLacksStandsBelowTheMovement) {
    Fonts fonts;
    program::Item item = stave::test::movement("swing", stave::test::each_of({8}));
    item.lacking = {"kettlebell", "dumbbell"};
    EXPECT_NE(
        test::packed_text(page_of(of_item(item), fonts)).find("Askthecoach:kettlebellordumbbell"),
        std::string::npos);
}

TEST(Cells, ABlockAgainstTheClockHasAPlaceForItsResult) {
    Fonts fonts;
    program::Block block = stave::test::rounds(
        stave::test::block(program::BlockKind::circuit, "",
                           {stave::test::movement("squat", stave::test::each_of({8}))}),
        1);
    block.run = program::RunKind::as_many;
    block.time = {8, Unit::minute};
    const Page tally = page_of(of_blocks({block}), fonts);
    EXPECT_TRUE(has_text(tally, "ROUNDS DONE"));
    // A box for each of up to twenty rounds, and the one of the movement itself.
    EXPECT_EQ(tick_boxes(tally), 21U);
    EXPECT_TRUE(has_text(tally, "20"));
    block.run = program::RunKind::for_time;
    const Page clock = page_of(of_blocks({block}), fonts);
    EXPECT_TRUE(has_text(clock, ":"));
    EXPECT_TRUE(has_text(clock, "min"));
    EXPECT_EQ(count_of<Triangle>(page_of(of_blocks({block}), fonts)), 0U);
}

TEST(Cells, AListHasABoxForEverySetAndNumbersItsMovements) {
    Fonts fonts;
    const Page page = page_of(
        of_blocks({stave::test::block(
            program::BlockKind::cool_down, "",
            {stave::test::movement("bridge", stave::test::times(2, stave::test::exactly(10))),
             stave::test::movement("squat", stave::test::each_of({8}))})}),
        fonts);
    EXPECT_EQ(tick_boxes(page), 3U);
    EXPECT_TRUE(has_text(page, "A1"));
    EXPECT_TRUE(has_text(page, "A2"));
}

TEST(Cells, AWordWiderThanItsColumnIsBrokenWithAHyphen) {
    Fonts fonts;
    const std::string word(60, 'm');
    const std::vector<Text> texts =
        texts_of(page_of(of_item(stave::test::movement(word, stave::test::each_of({8}))), fonts));
    EXPECT_TRUE(std::ranges::any_of(texts, [](const Text& text) {
        return text.text.starts_with("Mmm") && text.text.ends_with("m-");
    }));
}

}  // namespace
}  // namespace stave::card
