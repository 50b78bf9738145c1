// Rules that every card keeps, and what the layout refuses. Sizes and contrast
// are those of the card's own design (7 pt, 7:1; WCAG 2.1, success criterion
// 1.4.6, asks 7:1 of body text).
#include "backends/card/layout.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/wording/wording.hpp"
#include "tests/unit/card/page_checks.hpp"
#include "tests/unit/card/pdf_tools.hpp"
#include "tests/unit/card/sample_sessions.hpp"

namespace stave::card {
namespace {

using stave::test::Sample;

std::optional<Page> lay_out(const Sample& sample, Fonts& fonts, DiagnosticSink& sink) {
    return card::lay_out({}, sample.session, sample.timeline, {"7f3ac2"}, fonts, sink);
}

Page page_of(const Sample& sample, Fonts& fonts) {
    DiagnosticSink sink;
    const std::optional<Page> page = lay_out(sample, fonts, sink);
    EXPECT_TRUE(page.has_value()) << sample.name;
    return page.value_or(Page{});
}

std::vector<Text> texts_of(const Page& page) {
    std::vector<Text> texts;
    for (const Primitive& primitive : page.primitives) {
        if (const auto* text = std::get_if<Text>(&primitive)) texts.push_back(*text);
    }
    return texts;
}

bool has_text(const Page& page, const std::string& wanted) {
    return std::ranges::any_of(texts_of(page),
                               [&](const Text& text) { return text.text == wanted; });
}

template <class Shape>
std::size_t count_of(const Page& page) {
    return static_cast<std::size_t>(std::ranges::count_if(
        page.primitives,
        [](const Primitive& shape) { return std::holds_alternative<Shape>(shape); }));
}

// Boxes to tick: those that are not filled.
std::size_t tick_boxes(const Page& page) {
    return static_cast<std::size_t>(
        std::ranges::count_if(page.primitives, [](const Primitive& primitive) {
            const auto* box = std::get_if<Box>(&primitive);
            return box != nullptr && box->fill_grey < 0;
        }));
}

Sample of_blocks(std::vector<program::Block> blocks) {
    const std::vector<Ratio> minutes(blocks.size(), Ratio(5));
    return {"made", stave::test::session("1", "Made", "made", std::move(blocks)),
            stave::test::of_minutes(minutes)};
}

Sample of_item(program::Item item) {
    return of_blocks({stave::test::block(program::BlockKind::sets, "", {std::move(item)})});
}

// The checks themselves see what they are there for.
TEST(PageChecks, SeeTouchingPaleSmallAndOutlyingThings) {
    Fonts fonts;
    const Text text{.x = 9000, .y = 9000, .size = 1000, .text = "swing"};
    Text moved = text;
    moved.x += 500;
    EXPECT_EQ(test::faults_of(a4({text}), fonts).size(), 0U);
    EXPECT_EQ(test::faults_of(a4({text, moved}), fonts).size(), 1U);
    EXPECT_EQ(test::faults_of(a4({text, Line{8000, 8900, 20000, 8900, 50}}), fonts).size(), 1U);
    EXPECT_EQ(
        test::faults_of(a4({text, Box{.x = 9100, .y = 8000, .width = 900, .height = 1500}}), fonts)
            .size(),
        1U);
    Text bad = text;
    bad.size = 690;
    bad.grey = 40;
    bad.x = 2700;
    EXPECT_EQ(test::faults_of(a4({bad}), fonts).size(), 3U);
}

class EverySample : public testing::TestWithParam<Sample> {
protected:
    Fonts fonts;
};

TEST_P(EverySample, KeepsMarginsSizesContrastAndDistances) {
    const std::vector<std::string> faults = test::faults_of(page_of(GetParam(), fonts), fonts);
    for (const std::string& fault : faults)
        ADD_FAILURE() << fault;
}

// Each movement's name and load in the order of the session.
TEST_P(EverySample, SaysTheSessionInItsOrder) {
    const std::string text = test::packed_text(page_of(GetParam(), fonts));
    std::size_t from = 0;
    for (const program::Block& block : GetParam().session.blocks) {
        for (const program::Item& item : block.items) {
            const std::string name = test::packed(wording::name(item));
            const std::size_t at = text.find(name, from);
            ASSERT_NE(at, std::string::npos) << name;
            from = at + name.size();
            for (const program::Fault& fault : item.faults) {
                EXPECT_NE(text.find(test::packed(fault.mend), from), std::string::npos);
            }
        }
    }
    EXPECT_NE(text.find(test::packed("get cleared first"), from), std::string::npos);
    EXPECT_NE(text.find(GetParam().session.slug + "revision7f3ac2", from), std::string::npos);
}

TEST_P(EverySample, GivesTheSamePageTwice) {
    Fonts others;
    EXPECT_EQ(dump(page_of(GetParam(), fonts)), dump(page_of(GetParam(), others)));
}

INSTANTIATE_TEST_SUITE_P(Samples, EverySample, testing::ValuesIn(stave::test::all_samples()),
                         [](const testing::TestParamInfo<Sample>& sample) {
                             std::string name = sample.param.name;
                             std::erase(name, '-');
                             return name;
                         });

// poppler reads the page as a person would: head, blocks, footer.
TEST(Layout, PopplerReadsTheCardInReadingOrder) {
    Fonts fonts;
    const PdfFile pdf(written({page_of(stave::test::slack_water(), fonts)}));
    const std::string text = test::packed(pdf.text());
    std::size_t from = 0;
    for (const char* words : {"Slack water",
                              "sandbag 20 kg",
                              "sharp pain anywhere",
                              "Thu 3 December 2026",
                              "18:30",
                              "Boathouse loft",
                              "Warm-up",
                              "inchworm + shoulder tap",
                              "5+1, 4+2, 3+3, 2+4, 1+5",
                              "long hands, quiet hips",
                              "Haul",
                              "rest 2 min between sets",
                              "deadlift",
                              "3 s down, 1 s pause, fast up",
                              "bench press",
                              "52.5 kg",
                              "chin-up",
                              "max",
                              "Deck legs",
                              "3 rounds, rest 60 s between rounds",
                              "step-up",
                              "2 × 8 kg",
                              "each leg",
                              "12",
                              "10",
                              "8",
                              "lift its toes first",
                              "or band row: 18 @ heavy band, if no sandbag",
                              "steps forward, not back",
                              "Cool-down",
                              "10 breaths",
                              "Stop and tell the coach"}) {
        const std::size_t at = text.find(test::packed(words), from);
        ASSERT_NE(at, std::string::npos) << words;
        from = at;
    }
}

TEST(Layout, SidedWorkHasABoxForEachSideOfEachSet) {
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

TEST(Layout, ManyEqualSetsAreOneNumberAndARowOfBoxes) {
    Fonts fonts;
    const Page page = page_of(
        of_item(stave::test::movement("swing", stave::test::times(10, stave::test::exactly(8)))),
        fonts);
    EXPECT_TRUE(has_text(page, "10\u00A0×"));
    EXPECT_EQ(tick_boxes(page), 10U);
}

TEST(Layout, AHundredSetsAreTallied) {
    Fonts fonts;
    const Page page = page_of(
        of_item(stave::test::movement("swing", stave::test::times(100, stave::test::exactly(8)))),
        fonts);
    EXPECT_TRUE(has_text(page, "100\u00A0×"));
    EXPECT_TRUE(has_text(page, "tally"));
    EXPECT_EQ(tick_boxes(page), 0U);
}

TEST(Layout, LoadsThatChangeStandInTheirCells) {
    Fonts fonts;
    program::Item item = stave::test::movement("squat", stave::test::each_of({5, 5, 5}));
    item.loads = stave::test::weights({40, 45, 50});
    const Page changing = page_of(of_item(item), fonts);
    EXPECT_TRUE(has_text(changing, "45\u00A0kg"));
    item.loads = stave::test::weights({40});
    const std::vector<Text> texts = texts_of(page_of(of_item(item), fonts));
    EXPECT_EQ(std::ranges::count(texts, std::string("40\u00A0kg"), &Text::text), 1);
}

TEST(Layout, MovementsOfADefinitionBringTheirCuesAndFaults) {
    Fonts fonts;
    DiagnosticSink sink;
    program::Program program;
    program::MovementDefinition definition;
    definition.cues = {"elbows in", "look ahead"};
    definition.faults = {{"the hips sag", "squeeze"}};
    program.movements.push_back(definition);
    program::Item item = stave::test::movement("push-up", stave::test::each_of({8}));
    item.parts.front().definition = 0;
    item.cues = {"look ahead"};
    const Sample sample = of_item(item);
    const auto page = card::lay_out(program, sample.session, sample.timeline, {}, fonts, sink);
    ASSERT_TRUE(page.has_value());
    const std::string text = test::packed_text(*page);
    EXPECT_NE(text.find("lookahead·elbowsin"), std::string::npos) << text;
    EXPECT_NE(text.find("Ifthehipssag:squeeze"), std::string::npos) << text;
}

TEST(Layout, ShortSessionsKeepFullSizesAndGetTheEffortScale) {
    Fonts fonts;
    const Page page = page_of(stave::test::pocket(), fonts);
    EXPECT_EQ(count_of<Circle>(page), 11U);
    const std::vector<Text> texts = texts_of(page);
    const auto name = std::ranges::find(texts, "push-up", &Text::text);
    ASSERT_NE(name, texts.end());
    EXPECT_EQ(name->size, points(14.5));
}

TEST(Layout, CrowdedSessionsDropCuesBeforeTypeGetsSmaller) {
    Fonts fonts;
    Sample sample = stave::test::crowded();
    const std::string cue = test::packed("no hurry at the top of it");
    EXPECT_EQ(test::packed_text(page_of(sample, fonts)).find(cue), std::string::npos);
    sample.session.blocks.resize(2);
    sample.timeline = stave::test::of_minutes({9, 9});
    EXPECT_NE(test::packed_text(page_of(sample, fonts)).find(cue), std::string::npos);
}

TEST(Layout, RefusesWhatDoesNotFitAndNamesTheFullestBlock) {
    Fonts fonts;
    DiagnosticSink sink;
    EXPECT_FALSE(lay_out(stave::test::overflowing(), fonts, sink).has_value());
    const std::vector<Diagnostic> diagnostics = sink.sorted();
    ASSERT_EQ(diagnostics.size(), 1U);
    EXPECT_EQ(diagnostics[0].code, Code::card_overflow);
    EXPECT_EQ(diagnostics[0].span, (Span{300, 320}));
    ASSERT_EQ(diagnostics[0].arguments.size(), 2U);
    EXPECT_GT(std::stoi(diagnostics[0].arguments[0]), 100);
    EXPECT_EQ(diagnostics[0].arguments[1], "block C, Circuit Deck legs");
}

TEST(Layout, RefusesSignsThatNoFaceHas) {
    Fonts fonts;
    DiagnosticSink sink;
    program::Item item = stave::test::movement("שכיבה", stave::test::each_of({8}));
    item.span = {10, 20};
    Sample sample = of_item(item);
    sample.session.title = "Tide \U0001F6A3";
    sample.session.span = {1, 5};
    EXPECT_FALSE(lay_out(sample, fonts, sink).has_value());
    const std::vector<Diagnostic> diagnostics = sink.sorted();
    ASSERT_EQ(diagnostics.size(), 2U);
    EXPECT_EQ(diagnostics[0].code, Code::glyph_missing);
    EXPECT_EQ(diagnostics[0].span, (Span{1, 5}));
    EXPECT_EQ(diagnostics[0].arguments, std::vector<std::string>{"U+1F6A3 '\U0001F6A3'"});
    EXPECT_EQ(diagnostics[1].span, (Span{10, 20}));
    EXPECT_EQ(diagnostics[1].arguments, std::vector<std::string>{"U+05E9 'ש'"});
}

TEST(Layout, BlocksWithoutMovementsOrMinutesAreACleanPage) {
    Fonts fonts;
    Sample sample = of_blocks({stave::test::block(program::BlockKind::circuit, "", {}),
                               stave::test::block(program::BlockKind::warm_up, "", {})});
    sample.timeline = {};
    EXPECT_EQ(test::faults_of(page_of(sample, fonts), fonts), std::vector<std::string>{});
    sample.session.blocks.clear();
    EXPECT_EQ(test::faults_of(page_of(sample, fonts), fonts), std::vector<std::string>{});
}

}  // namespace
}  // namespace stave::card
