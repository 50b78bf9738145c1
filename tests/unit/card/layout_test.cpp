// Rules that every card keeps, and what the layout refuses. Sizes and contrast
// are those of the card's own design (7 pt, 7:1; WCAG 2.1, success criterion
// 1.4.6, asks 7:1 of body text).
#include "backends/card/layout.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "backends/card/layout_text.hpp"
#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/wording/wording.hpp"
#include "tests/unit/card/laid_out.hpp"
#include "tests/unit/card/page_checks.hpp"
#include "tests/unit/card/pdf_tools.hpp"

namespace stave::card {
namespace {

using namespace test;
using stave::test::Sample;

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

// A word that was broken has a hyphen that its writer did not type.
std::string without_hyphens(std::string text) {
    std::erase(text, '-');
    return text;
}

// Each movement's name and load in the order of the session.
TEST_P(EverySample, SaysTheSessionInItsOrder) {
    const std::string text = without_hyphens(test::packed_text(page_of(GetParam(), fonts)));
    std::size_t from = 0;
    for (const program::Block& block : GetParam().session.blocks) {
        for (const program::Item& item : block.items) {
            const std::string name = without_hyphens(test::packed(wording::display_name(item)));
            const std::size_t at = text.find(name, from);
            ASSERT_NE(at, std::string::npos) << name;
            from = at + name.size();
            for (const program::Fault& fault : item.faults) {
                EXPECT_NE(text.find(without_hyphens(test::packed(fault.mend)), from),
                          std::string::npos);
            }
        }
    }
    EXPECT_NE(text.find(test::packed("get cleared first"), from), std::string::npos);
    EXPECT_NE(text.find(without_hyphens(GetParam().session.slug) + "revision7f3ac2", from),
              std::string::npos);
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
                              "Inchworm + shoulder tap",
                              "5+1, 4+2, 3+3, 2+4, 1+5",
                              "long hands, quiet hips",
                              "Haul",
                              "rest 2 min after every set",
                              "Deadlift",
                              "3 s down, 1 s pause, fast up",
                              "Bench press",
                              "52.5 kg",
                              "Chin-up",
                              "max",
                              "Deck legs",
                              "3 rounds, rest 60 s between rounds",
                              "Step-up",
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

TEST(Layout, ShortSessionsKeepFullSizesAndGetTheEffortScale) {
    Fonts fonts;
    const Page page = page_of(stave::test::pocket(), fonts);
    EXPECT_EQ(count_of<Circle>(page), 11U);
    const std::vector<Text> texts = texts_of(page);
    const auto name = std::ranges::find(texts, "Push-up", &Text::text);
    ASSERT_NE(name, texts.end());
    EXPECT_EQ(name->size, points(14.5));
}

TEST(Layout, CrowdedSessionsDropCuesAndSaySo) {
    Fonts fonts;
    Sample sample = stave::test::crowded();
    const std::string cue = test::packed("no hurry at the top of it");
    DiagnosticSink sink;
    const std::optional<Page> page = lay_out(sample, fonts, sink);
    ASSERT_TRUE(page.has_value());
    EXPECT_EQ(test::packed_text(*page).find(cue), std::string::npos);
    const std::vector<Diagnostic> notes = sink.sorted();
    ASSERT_EQ(notes.size(), 1U);
    EXPECT_EQ(notes[0].code, Code::card_cues_dropped);
    EXPECT_EQ(notes[0].span, sample.session.blocks[0].span);
    EXPECT_EQ(notes[0].arguments,
              std::vector<std::string>{"block A, block B, block C, block D, block E and block F"});
}

TEST(Layout, TheNoteNamesOnlyTheBlocksThatLostTheirCues) {
    Fonts fonts;
    Sample sample = stave::test::crowded();
    for (std::size_t block_id = 0; block_id < sample.session.blocks.size(); ++block_id) {
        program::Block& block = sample.session.blocks[block_id];
        block.span = {static_cast<std::uint32_t>(100 * block_id),
                      static_cast<std::uint32_t>(100 * block_id + 9)};
        if (block_id == 1 || block_id == 4) continue;
        for (program::Item& item : block.items)
            item.cues.clear();
    }
    DiagnosticSink sink;
    ASSERT_TRUE(lay_out(sample, fonts, sink).has_value());
    const std::vector<Diagnostic> notes = sink.sorted();
    ASSERT_EQ(notes.size(), 1U);
    EXPECT_EQ(notes[0].span, (Span{100, 109}));
    EXPECT_EQ(notes[0].arguments, std::vector<std::string>{"block B and block E"});
}

TEST(Layout, SessionsWithRoomKeepTheirCuesWithoutANote) {
    Fonts fonts;
    Sample sample = stave::test::crowded();
    sample.session.blocks.resize(2);
    sample.timeline = stave::test::of_minutes({9, 9});
    DiagnosticSink sink;
    const std::optional<Page> page = lay_out(sample, fonts, sink);
    ASSERT_TRUE(page.has_value());
    EXPECT_NE(test::packed_text(*page).find(test::packed("no hurry at the top of it")),
              std::string::npos);
    EXPECT_TRUE(sink.sorted().empty());
}

TEST(Layout, TheEffortScaleGivesUpItsNotesBeforeItGoes) {
    Fonts fonts;
    std::vector<std::string> seen;
    std::vector<program::Item> items;
    while (seen.empty() || seen.back() != "nothing") {
        items.push_back(stave::test::movement("push-up", stave::test::each_of({8, 8})));
        const Page page =
            page_of(of_blocks({stave::test::block(program::BlockKind::sets, "", items)}), fonts);
        ASSERT_FALSE(page.primitives.empty());
        std::string closing = has_text(page, "EFFORT, WHOLE SESSION") ? "all" : "nothing";
        if (has_text(page, "EFFORT")) closing = "one row";
        EXPECT_EQ(count_of<Circle>(page), closing == "nothing" ? 0U : 11U);
        if (seen.empty() || seen.back() != closing) seen.push_back(closing);
    }
    // Smaller type makes room for notes once more.
    EXPECT_EQ(seen, (std::vector<std::string>{"all", "one row", "all", "one row", "nothing"}));
}

TEST(Layout, KitBreaksBetweenThingsOnly) {
    Fonts fonts;
    Sample sample = stave::test::pocket();
    const std::vector<Ratio> weights{8, 12, 16};
    for (const char* name : {"kettlebells", "long wooden sticks", "bars", "sandbags"}) {
        sample.session.kit.push_back({2, name, weights, Unit::kilogram});
    }
    const Page page = page_of(sample, fonts);
    std::size_t lines = 0;
    for (const Text& text : texts_of(page)) {
        if (text.text.find("12\u00A016\u00A0kg") == std::string::npos) continue;
        ++lines;
        EXPECT_TRUE(text.text.starts_with("2\u00A0")) << text.text;
    }
    EXPECT_GE(lines, 2U);
}

TEST(Layout, ASlugOfAnyLengthKeepsTheRevisionWhole) {
    Fonts fonts;
    Sample sample = stave::test::pocket();
    sample.session.slug = "session-26-haul-with-heavier-hands-than-last-week-and-longer-walks";
    const Page page = page_of(sample, fonts);
    EXPECT_TRUE(has_text(page, "revision\u00A07f3ac2"));
    EXPECT_NE(test::packed_text(page).find(sample.session.slug), std::string::npos);
    EXPECT_EQ(test::faults_of(page, fonts), std::vector<std::string>{});
}

// "27-28-2" over "9-30" would be read as 2 and 9, and a hyphen behind a hyphen as minus.
TEST(Layout, BreaksLongListsBehindTheirHyphensAndNumbersNowhere) {
    Fonts fonts;
    std::string list = "1";
    for (int value = 2; value <= 60; ++value)
        list += '-' + std::to_string(value);
    for (int width = 40; width < 160; width += 7) {
        const layout::TextBlock block =
            layout::wrap(fonts, {{{Face::medium, points(10)}, list}}, points(width));
        std::string joined;
        for (const layout::TextLine& line : block.lines) {
            const std::string& text = line.parts.front().text;
            EXPECT_FALSE(text.ends_with("--"));
            EXPECT_TRUE(text.ends_with('-') || &line == &block.lines.back()) << text;
            joined += text;
        }
        EXPECT_EQ(joined, list);
    }
}

TEST(Layout, AddsNoHyphenToAnAddress) {
    Fonts fonts;
    Sample sample = stave::test::pocket();
    sample.session.link = "https://example.org/" + std::string(280, 'a');
    const Page page = page_of(sample, fonts);
    EXPECT_EQ(test::faults_of(page, fonts), std::vector<std::string>{});
    EXPECT_NE(test::packed_text(page).find("example.org/" + std::string(280, 'a')),
              std::string::npos);
}

// "62 min of 50 min" would be nonsense.
TEST(Layout, SaysWhatIsBookedBesideASessionThatTakesLonger) {
    Fonts fonts;
    Sample sample = stave::test::pocket();
    sample.session.when = stave::test::evening();
    sample.session.when->time_limit = Quantity{Ratio(1), Unit::minute};
    EXPECT_TRUE(has_text(page_of(sample, fonts), "1\u00A0min booked"));
    sample.session.when->time_limit = Quantity{Ratio(2), Unit::minute};
    EXPECT_TRUE(has_text(page_of(sample, fonts), "of 2\u00A0min booked"));
}

// ISO/IEC 18004 asks for a quiet zone, which faults_of looks at; the address can be typed
// and clicked too.
TEST(Layout, PutsTheAddressIntoACodeThatLeadsThere) {
    Fonts fonts;
    Sample sample = stave::test::pocket();
    sample.session.link = "https://example.org/skerry-point/lent-term.ics";
    for (const Paper paper : {Paper::a4, Paper::letter, Paper::a5, Paper::a6, Paper::a3}) {
        DiagnosticSink sink;
        const auto page = lay_out(sample, fonts, sink, {.revision = "7f3ac2", .paper = paper});
        ASSERT_TRUE(page.has_value());
        EXPECT_EQ(test::faults_of(*page, fonts), std::vector<std::string>{});
        EXPECT_EQ(count_of<Modules>(*page), 1U);
        ASSERT_EQ(count_of<Link>(*page), 1U);
        EXPECT_NE(test::packed_text(*page).find("example.org/skerry-point/lent-term.ics"),
                  std::string::npos);
    }
}

TEST(Layout, NamesSeriesAndCoach) {
    Fonts fonts;
    Sample sample = stave::test::pocket();
    sample.session.number = "4";
    sample.session.title = "Haul";
    sample.session.series = "Winter strength";
    sample.session.coach = "M. Okafor";
    const Page page = page_of(sample, fonts);
    EXPECT_NE(test::packed_text(page).find("WinterstrengthSESSION4"), std::string::npos);
    EXPECT_TRUE(has_text(page, "M. Okafor"));
    EXPECT_EQ(test::faults_of(page, fonts), std::vector<std::string>{});
}

// A card of somebody's own has their name once, and no line to write it on.
TEST(Layout, NamesWhoseCardItIsOnce) {
    for (const Paper paper : {Paper::a4, Paper::a6}) {
        Fonts fonts;
        Sample sample = stave::test::pocket();
        sample.session.athlete = "Mara Lind";
        sample.session.audience = {"Mara Lind"};
        DiagnosticSink sink;
        const auto pages = card::lay_out({}, sample.session, sample.timeline,
                                         {.revision = "7f3ac2", .paper = paper}, fonts, sink);
        ASSERT_TRUE(pages);
        const Page& page = pages->front();
        EXPECT_EQ(all_of(page, "Mara Lind").size(), 1U);
        EXPECT_TRUE(has_text(page, "NAME"));
        EXPECT_FALSE(has_text(page, "FOR"));
        EXPECT_EQ(test::packed_text(page).find("forMara"), std::string::npos);
    }
}

// Both columns begin at the same height.
TEST(Layout, SetsABlocksMovementsInTwoColumnsWhereAsked) {
    Fonts fonts;
    Sample sample =
        of_blocks({stave::test::block(program::BlockKind::sets, "",
                                      {stave::test::movement("row", stave::test::each_of({8})),
                                       stave::test::movement("dip", stave::test::each_of({8}))})});
    const auto heights = [&] {
        const Page page = page_of(sample, fonts);
        return all_of(page, "Row").front().y - all_of(page, "Dip").front().y;
    };
    EXPECT_LT(heights(), 0);
    sample.session.blocks[0].columns = 2;
    EXPECT_EQ(heights(), 0);
}

TEST(Layout, TakesTwoPagesWhereTheyAreAllowed) {
    Fonts fonts;
    DiagnosticSink sink;
    Sample sample = stave::test::crowded();
    const CardText text{.revision = "7f3ac2", .paper = Paper::a5};
    EXPECT_FALSE(lay_out(sample, fonts, sink, text).has_value());
    sample.session.pages = 2;
    const auto pages = card::lay_out({}, sample.session, sample.timeline, text, fonts, sink);
    ASSERT_TRUE(pages.has_value());
    ASSERT_EQ(pages->size(), 2U);
    EXPECT_NE(test::packed_text(pages->front()).find(test::packed("page 1 of 2")),
              std::string::npos);
    EXPECT_NE(test::packed_text(pages->back()).find(test::packed("page 2 of 2")),
              std::string::npos);
    for (const Page& page : *pages)
        EXPECT_EQ(test::faults_of(page, fonts), std::vector<std::string>{});
}

// Two pages may take larger type, and the effort scale is as wide as the card.
TEST(Layout, KeepsTheEffortScaleInsideAPocketsMarginsOnTwoPages) {
    Fonts fonts;
    DiagnosticSink sink;
    std::vector<program::Block> blocks;
    for (int count = 0; count < 9; ++count)
        blocks.push_back(stave::test::block(
            program::BlockKind::sets, "",
            {stave::test::movement("row", stave::test::times(3, stave::test::exactly(8)))}));
    Sample sample = of_blocks(std::move(blocks));
    sample.session.pages = 2;
    const auto pages = card::lay_out({}, sample.session, sample.timeline,
                                     {.revision = "7f3ac2", .paper = Paper::a6}, fonts, sink);
    ASSERT_TRUE(pages.has_value());
    ASSERT_EQ(pages->size(), 2U);
    for (const Page& page : *pages)
        EXPECT_EQ(test::faults_of(page, fonts), std::vector<std::string>{});
}

TEST(Layout, RefusesWhatDoesNotFitTwoPages) {
    Fonts fonts;
    DiagnosticSink sink;
    Sample sample = stave::test::overflowing();
    sample.session.pages = 2;
    const auto pages = card::lay_out({}, sample.session, sample.timeline,
                                     {.revision = "7f3ac2", .paper = Paper::a6}, fonts, sink);
    EXPECT_FALSE(pages.has_value());
    const std::vector<Diagnostic> diagnostics = sink.sorted();
    ASSERT_EQ(diagnostics.size(), 1U);
    EXPECT_EQ(diagnostics[0].code, Code::pages_overflow);
    ASSERT_EQ(diagnostics[0].arguments.size(), 4U);
    EXPECT_EQ(diagnostics[0].arguments[1], "A6");
}

TEST(Layout, RefusesWhatDoesNotFitAndNamesTheFullestBlock) {
    Fonts fonts;
    DiagnosticSink sink;
    EXPECT_FALSE(lay_out(stave::test::overflowing(), fonts, sink).has_value());
    const std::vector<Diagnostic> diagnostics = sink.sorted();
    ASSERT_EQ(diagnostics.size(), 1U);
    EXPECT_EQ(diagnostics[0].code, Code::card_overflow);
    EXPECT_EQ(diagnostics[0].span, (Span{300, 320}));
    ASSERT_EQ(diagnostics[0].arguments.size(), 4U);
    EXPECT_GT(std::stoi(diagnostics[0].arguments[0]), 100);
    EXPECT_EQ(diagnostics[0].arguments[1], "A4");
    EXPECT_EQ(diagnostics[0].arguments[2], "block C, Circuit Deck legs");
    EXPECT_GT(std::stoi(diagnostics[0].arguments[3]), 100);
}

TEST(Layout, RefusesSignsThatNoFaceHas) {
    Fonts fonts;
    DiagnosticSink sink;
    program::Item item = stave::test::movement("字 lift", stave::test::each_of({8}));
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
    EXPECT_EQ(diagnostics[1].arguments, std::vector<std::string>{"U+5B57 '字'"});
}

// The first letters' bidirectional classes in Unicode's data: R, AL, AN, and L.
TEST(Layout, RefusesTextFromRightToLeftInWhateverTypeface) {
    Fonts fonts;
    for (const auto& [name, is_turned] : {std::pair{"lift שכיבה", true}, std::pair{"سباحة", true},
                                          std::pair{"٣ lifts", true}, std::pair{"тяга", false}}) {
        DiagnosticSink sink;
        program::Item item = stave::test::movement(name, stave::test::each_of({8}));
        item.span = {10, 20};
        EXPECT_EQ(lay_out(of_item(item), fonts, sink).has_value(), !is_turned) << name;
        if (!is_turned) continue;
        ASSERT_EQ(sink.sorted().size(), 1U) << name;
        EXPECT_EQ(sink.sorted().front().code, Code::text_right_to_left) << name;
        EXPECT_EQ(sink.sorted().front().span, (Span{10, 20}));
    }
}

// In its own text, not where the sign stands first; else where it stands first; else at
// the line.
TEST(Layout, PlacesSignsWhereTheyAreTyped) {
    Fonts fonts;
    const std::string source = "session: A\npress: 8  # 字\n  cue: up 字 and down\n";
    program::Item item = stave::test::movement("press", stave::test::each_of({8}));
    item.span = {11, 19};
    const auto place = [&](const std::string& cue) {
        item.cues = {cue};
        DiagnosticSink sink;
        EXPECT_FALSE(lay_out(of_item(item), fonts, sink, {.revision = "7f3ac2", .source = source}));
        return sink.sorted().front().span;
    };
    const auto second = static_cast<std::uint32_t>(source.rfind("字"));
    const auto first = static_cast<std::uint32_t>(source.find("字"));
    EXPECT_EQ(place("up 字 and down"), (Span{second, second + 3}));
    EXPECT_EQ(place("up  字"), (Span{first, first + 3}));
    EXPECT_EQ(place("up ש"), (Span{11, 19}));
}

TEST(Layout, LooksForSignsInTheSeriesAndTheCoach) {
    Fonts fonts;
    for (std::string program::Session::*text :
         {&program::Session::series, &program::Session::coach}) {
        DiagnosticSink sink;
        Sample sample = of_item(stave::test::movement("squat", stave::test::each_of({8})));
        sample.session.*text = "Tide \U0001F6A3";
        EXPECT_FALSE(lay_out(sample, fonts, sink).has_value());
        ASSERT_EQ(sink.sorted().size(), 1U);
        EXPECT_EQ(sink.sorted().front().code, Code::glyph_missing);
    }
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
