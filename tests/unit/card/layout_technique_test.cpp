// The technique side: what it shows, in which order, and what it says it lacks.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "tests/unit/card/laid_out.hpp"
#include "tests/unit/card/page_checks.hpp"

namespace stave::card {
namespace {

using namespace test;
using program::MovementDefinition;

MovementDefinition known(std::string name, std::size_t steps) {
    MovementDefinition movement;
    movement.name = std::move(name);
    for (std::size_t step = 1; step <= steps; ++step) {
        movement.technique.steps.push_back("Step " + std::to_string(step) + " of the " +
                                           movement.name +
                                           ", told in enough words to fill more than one line");
    }
    return movement;
}

// A session of all movements of the program, and one more that nobody defined.
Sample session_of(const program::Program& program) {
    std::vector<program::Item> items;
    for (std::uint32_t id = 0; id < program.movements.size(); ++id) {
        items.push_back(
            stave::test::movement(program.movements[id].name, stave::test::each_of({8})));
        items.back().parts.front().definition = id;
    }
    items.push_back(stave::test::movement("rope climb", stave::test::each_of({3})));
    return of_blocks({stave::test::block(program::BlockKind::sets, "", std::move(items))});
}

struct LaidOut {
    std::vector<Page> pages;
    std::vector<Diagnostic> diagnostics;
};

LaidOut with_technique(const program::Program& program, const Sample& sample, Fonts& fonts,
                       Paper paper = Paper::a4) {
    const CardText text{.revision = "7f3ac2", .paper = paper, .has_technique = true};
    DiagnosticSink sink;
    auto pages = lay_out(program, sample.session, sample.timeline, text, fonts, sink);
    EXPECT_TRUE(pages.has_value());
    return {pages.value_or(std::vector<Page>{}), sink.sorted()};
}

TEST(LayoutTechnique, NumbersTheStepsOfEachMovementInTheOrderOfTheSession) {
    Fonts fonts;
    program::Program program;
    program.movements = {known("push-up", 3), known("swing", 2)};
    program.movements[1].technique.cautions = {"clear the space in front"};
    program.movements[1].faults = {{"the back rounds", "push the hips back first"}};
    const LaidOut card = with_technique(program, session_of(program), fonts);
    ASSERT_EQ(card.pages.size(), 2U);
    const Page& second = card.pages[1];
    EXPECT_EQ(faults_of(second, fonts), std::vector<std::string>{});
    EXPECT_EQ(all_of(second, "1").size(), 2U);
    EXPECT_EQ(all_of(second, "3").size(), 1U);
    const std::string text = packed_text(second);
    const std::size_t first = text.find("Push-up");
    const std::size_t next = text.find("Swing");
    ASSERT_NE(first, std::string::npos);
    ASSERT_NE(next, std::string::npos);
    EXPECT_LT(first, next);
    EXPECT_LT(next, text.find("Ifthebackrounds:"));
    EXPECT_NE(text.find("Takecare:clearthespaceinfront"), std::string::npos);
    EXPECT_NE(text.find("getclearedfirst"), std::string::npos);
}

// "Bar row from below" of the session is the library's "inverted row".
TEST(LayoutTechnique, CallsAMovementAsTheCoachDoes) {
    Fonts fonts;
    program::Program program;
    program.movements = {known("inverted row", 3)};
    Sample sample = session_of(program);
    sample.session.blocks[0].items[0].parts[0].name = "bar row from below";
    const LaidOut card = with_technique(program, sample, fonts);
    ASSERT_EQ(card.pages.size(), 2U);
    EXPECT_TRUE(has_text(card.pages[1], "Bar row from below"));
    EXPECT_TRUE(has_text(card.pages[1], "inverted row"));
}

TEST(LayoutTechnique, NamesTheMovementsWithoutSteps) {
    Fonts fonts;
    program::Program program;
    program.movements = {known("push-up", 3), known("lantern lift", 0)};
    const LaidOut card = with_technique(program, session_of(program), fonts);
    ASSERT_EQ(card.diagnostics.size(), 1U);
    EXPECT_EQ(card.diagnostics[0].code, Code::technique_unknown);
    EXPECT_EQ(card.diagnostics[0].arguments, std::vector<std::string>{"lantern lift, rope climb"});
}

TEST(LayoutTechnique, TakesAsManyCleanPagesAsItNeedsOnEveryPaper) {
    Fonts fonts;
    program::Program program;
    for (int id = 1; id <= 14; ++id)
        program.movements.push_back(known("movement " + std::to_string(id), 8));
    const Sample sample = session_of(program);
    for (const Paper paper : {Paper::a3, Paper::a4, Paper::letter, Paper::a5, Paper::a6}) {
        const LaidOut card = with_technique(program, sample, fonts, paper);
        ASSERT_GE(card.pages.size(), 2U);
        std::size_t numbers = 0;
        for (std::size_t page = 1; page < card.pages.size(); ++page) {
            EXPECT_EQ(faults_of(card.pages[page], fonts), std::vector<std::string>{});
            numbers += all_of(card.pages[page], "8").size();
        }
        EXPECT_EQ(numbers, 14U);
    }
}

// Otherwise a step or a caution would be read as the next movement's.
TEST(LayoutTechnique, KeepsAMovementInOneColumn) {
    Fonts fonts;
    program::Program program;
    for (int id = 1; id <= 14; ++id)
        program.movements.push_back(known("movement " + std::to_string(id), 3 + id % 4));
    const LaidOut card = with_technique(program, session_of(program), fonts, Paper::a5);
    ASSERT_GE(card.pages.size(), 2U);
    for (std::size_t page = 1; page < card.pages.size(); ++page) {
        Centipoints name_y = 0;
        for (const Text& text : texts_of(card.pages[page])) {
            if (text.text.starts_with("Movement")) name_y = text.y;
            if (text.text.starts_with("Step")) {
                EXPECT_GT(text.y, name_y);
            }
        }
        EXPECT_GT(name_y, 0);
    }
}

TEST(LayoutTechnique, AddsNoPageWhereNothingIsKnown) {
    Fonts fonts;
    const LaidOut card = with_technique({}, session_of({}), fonts);
    EXPECT_EQ(card.pages.size(), 1U);
}

}  // namespace
}  // namespace stave::card
