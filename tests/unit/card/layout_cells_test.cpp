// What stands in the cells of a table, and where. The arrangement is our own.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <tuple>
#include <vector>

#include "tests/unit/card/laid_out.hpp"

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

}  // namespace
}  // namespace stave::card
