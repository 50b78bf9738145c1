// Cards read back by poppler (pdfinfo, pdffonts, pdftotext, pdftoppm) and qpdf.
#include "backends/card/paper.hpp"
#include "backends/card/pdf/pdf_writer.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <numbers>
#include <regex>
#include <set>
#include <string>

#include "compiler/source/utf8.hpp"
#include "tests/unit/card/pdf_tools.hpp"

namespace stave::card {
namespace {

constexpr std::array faces{Face::condensed_bold, Face::condensed_regular, Face::regular,
                           Face::medium};

Text line_of(std::string text, Centipoints y, Face face = Face::regular) {
    return {.x = 3600, .y = y, .face = face, .size = 1000, .text = std::move(text)};
}

// A page an inch square with one large text on it.
Page inch(std::string text) {
    Page page = a4({Text{.x = 800, .y = 5400, .size = 4000, .text = std::move(text)}});
    page.width = 7200;
    page.height = 7200;
    return page;
}

std::vector<std::string> matches(const std::string& text, const std::string& pattern) {
    const std::regex expression(pattern);
    std::vector<std::string> found;
    for (std::sregex_iterator i(text.begin(), text.end(), expression), end; i != end; ++i) {
        found.push_back(i->str(i->size() > 1 ? 1 : 0));
    }
    return found;
}

std::string trailer_id(const PdfFile& pdf) {
    const auto found = matches(pdf.read("qpdf --show-object=trailer"), "/ID \\[ ([^\\]]*) \\]");
    return found.size() == 1 ? found[0] : "";
}

TEST(Pdf, IsASoundFileOfOneA4Page) {
    const PdfFile pdf(written({a4({line_of("Haul & Hold", 5000), Box{.width = 900}})}));
    EXPECT_NE(pdf.read("qpdf --check").find("No syntax or stream encoding errors"),
              std::string::npos);
    const std::string info = pdf.read("pdfinfo");
    EXPECT_NE(info.find("Pages:           1\n"), std::string::npos) << info;
    EXPECT_NE(info.find("(A4)"), std::string::npos) << info;
    EXPECT_NE(info.find("PDF version:     1.7\n"), std::string::npos) << info;
}

TEST(Pdf, CarriesTitleAndLanguageAndNoDate) {
    Page page = a4({line_of("Haul", 5000)});
    page.title = "Tide & Tow – Κύμα \U0001F6A3";
    const PdfFile pdf(written({page}));
    const std::string info = pdf.read("pdfinfo -enc UTF-8");
    EXPECT_NE(info.find("Title:           Tide & Tow – Κύμα \U0001F6A3\n"), std::string::npos)
        << info;
    EXPECT_EQ(info.find("Date"), std::string::npos) << info;
    const std::string catalogue = pdf.read("qpdf --show-object=1");
    EXPECT_NE(catalogue.find("/Lang (en-GB)"), std::string::npos) << catalogue;
    EXPECT_NE(catalogue.find("/DisplayDocTitle true"), std::string::npos) << catalogue;
}

TEST(Pdf, EmbedsASubsetOfEachFaceUsedWithAWayBackToText) {
    std::vector<Primitive> primitives;
    for (const Face face : faces)
        primitives.emplace_back(line_of("Ångström Ώρα Ёж", 5000, face));
    const PdfFile pdf(written({a4(primitives)}));
    const std::string fonts = pdf.read("pdffonts");
    // Columns emb, sub and uni; six capitals before the name.
    EXPECT_EQ(matches(fonts, "[A-Z]{6}\\+Roboto.*CID TrueType +Identity-H +yes yes yes").size(), 4U)
        << fonts;
    EXPECT_EQ(pdf.text(), "Ångström Ώρα Ёж\nÅngström Ώρα Ёж\nÅngström Ώρα Ёж\nÅngström Ώρα Ёж\n");
}

TEST(Pdf, LeavesOutFacesThatNothingIsDrawnIn) {
    const PdfFile pdf(written({a4({line_of("Haul", 5000, Face::medium)})}));
    EXPECT_EQ(matches(pdf.read("pdffonts"), "Roboto").size(), 1U);
    const PdfFile empty(written({a4({line_of("", 5000), Line{.x2 = 5000, .width = 100}})}));
    EXPECT_EQ(matches(empty.read("pdffonts"), "Roboto").size(), 0U);
    EXPECT_EQ(empty.run("qpdf --check").status, 0);
}

TEST(Pdf, GivesTextBackAsTyped) {
    const std::vector<std::string> lines{
        "Élan, Ødegård, Łódź, İstanbul", "5 × 3 at 82½ kg – rest 2′30″, ±2",
        "Κράτα την πλάτη ίσια ᾧ",        "Держи спину ровно, Ёж",
        "Đẩy mạnh, giữ thẳng lưng",      R"(fi ffi AVATAR To. (office) \ "go" <>)",
    };
    std::vector<Primitive> primitives;
    Centipoints y = 5000;
    std::string all;
    for (const std::string& line : lines) {
        primitives.emplace_back(line_of(line, y += 2000));
        all += line + "\n";
    }
    EXPECT_EQ(PdfFile(written({a4(primitives)})).text(), all);
}

// poppler prints a no-break space as a space, so the map itself is looked at.
TEST(Pdf, KeepsNoBreakSpacesApartFromSpaces) {
    const PdfFile pdf(written({a4({line_of("12\u00A0kg per hand", 5000)})}));
    EXPECT_EQ(pdf.text(), "12 kg per hand\n");
    const std::string map = pdf.read("qpdf --qdf --object-streams=disable", "-");
    EXPECT_EQ(matches(map, "<[0-9A-F]{4}> <00A0>").size(), 1U);
    EXPECT_EQ(matches(map, "<[0-9A-F]{4}> <0020>").size(), 1U);
}

TEST(Pdf, GivesTrackedCapitalsBackAsWords) {
    Text heads = line_of("ROUND LOAD 1 2 3", 5000, Face::condensed_bold);
    heads.tracking = 80;
    EXPECT_EQ(PdfFile(written({a4({heads})})).text(), "ROUND LOAD 1 2 3\n");
}

// Kept apart from their look-alikes, although one glyph draws both.
TEST(Pdf, GivesBackDecomposedAndComposedLettersEachAsTyped) {
    const PdfFile pdf(written({a4({line_of("\u00C9lan E\u0301lan \u00C9lan", 5000)})}));
    EXPECT_EQ(pdf.text(), "\u00C9lan E\u0301lan \u00C9lan\n");
}

TEST(Pdf, GivesBackTheSourceOfACharacterThatPrintsAsABox) {
    const PdfFile pdf(written({inch("→"), inch(" ")}));
    EXPECT_EQ(matches(pdf.text(), "→").size(), 1U);
    const std::vector<Picture> pictures = pdf.pictures();
    ASSERT_EQ(pictures.size(), 2U);
    EXPECT_GT(pictures[0].ink(), 50);
    EXPECT_EQ(pictures[1].ink(), 0);
}

TEST(Pdf, KeepsTheWholeBodyOfCompositeLetters) {
    const std::vector<std::pair<std::string, std::string>> letters{
        {"É", "E"}, {"Ň", "N"}, {"Ů", "U"}, {"Ǻ", "A"}, {"Ệ", "E"}, {"Ώ", "Ω"},
        {"Ϊ", "Ι"}, {"ᾧ", "ω"}, {"Ё", "Е"}, {"Й", "И"}, {"ΐ", "ι"}, {"ặ", "a"},
    };
    std::vector<Page> pages;
    for (const auto& [accented, base] : letters) {
        pages.push_back(inch(accented));
        pages.push_back(inch(base));
    }
    const std::vector<Picture> pictures = PdfFile(written(pages)).pictures();
    ASSERT_EQ(pictures.size(), pages.size());
    for (std::size_t i = 0; i < letters.size(); ++i) {
        EXPECT_GT(pictures[2 * i].ink(), pictures[2 * i + 1].ink() + 10) << letters[i].first;
    }
}

TEST(Pdf, SharesOneSubsetAmongAllPages) {
    std::vector<Page> pages;
    for (int i = 0; i < 30; ++i)
        pages.push_back(a4({line_of("Card " + std::to_string(i), 5000)}));
    const std::string bytes = written(pages);
    const PdfFile pdf(bytes);
    EXPECT_EQ(matches(pdf.read("pdffonts"), "Roboto").size(), 1U);
    const std::string objects = pdf.read("qpdf --qdf --object-streams=disable", "-");
    EXPECT_EQ(matches(objects, "/FontFile2").size(), 1U);
    EXPECT_NE(pdf.read("pdfinfo").find("Pages:           30\n"), std::string::npos);
    EXPECT_EQ(pdf.read("pdftotext -f 30 -l 30 -nopgbrk", "-"), "Card 29\n\n");
    EXPECT_EQ(pdf.run("qpdf --check").status, 0);
}

TEST(Pdf, IsTheSameBytesForTheSamePages) {
    const std::vector<Page> pages{a4({line_of("Haul & Hold", 5000), Circle{.radius = 9}})};
    const std::string first = written(pages);
    EXPECT_EQ(written(pages), first);
    Fonts used;
    const std::vector<Page> others{a4({line_of("Something else first: ÅΩЖ", 5000)})};
    ASSERT_TRUE(write_pdf(others, used).has_value());
    EXPECT_EQ(write_pdf(pages, used).value_or(""), first);
}

TEST(Pdf, IsTheSameBytesHoweverManyWereWrittenBeforeIt) {
    Fonts fonts;
    PdfWriter writer(fonts);
    for (const std::string text : {"Haul", "Hold", "Haul", "Κύμα", "Haul & Hold"}) {
        const Page page = a4({line_of(text, 5000), line_of(text, 7000, Face::condensed_bold)});
        EXPECT_EQ(writer.write({&page, 1}).value_or(""), written({page})) << text;
    }
    for (int i = 0; i < 100; ++i) {
        const Page page = a4({line_of(std::string(1, static_cast<char>(' ' + i % 90)), 5000)});
        EXPECT_EQ(writer.write({&page, 1}).value_or(""), written({page})) << i;
    }
}

// So a writer that makes many cards cuts it once.
TEST(Pdf, HasTheSameFontForTheSameLettersInAnyOrder) {
    const auto name = [](const std::string& text) {
        return matches(PdfFile(written({a4({line_of(text, 5000)})})).read("pdffonts"),
                       "[A-Z]{6}\\+Roboto");
    };
    ASSERT_EQ(name("tide Haul").size(), 1U);
    EXPECT_EQ(name("tide Haul"), name("Haul tide"));
    EXPECT_NE(name("tide Haul"), name("tide Hauls"));
}

// More than 256 letters, with gaps: the ranges of the map to Unicode end at bytes' ends.
TEST(Pdf, GivesBackHundredsOfLettersInWhateverOrder) {
    const Fonts fonts;
    std::vector<std::string> lines(1);
    for (std::int32_t letter = 0x450; letter > 0x20; --letter) {
        const std::string text = encoded(letter);
        const bool is_letter =
            letter < 0x7F || (letter > 0xBF && letter != 0x132 && letter != 0x133);
        if (!is_letter || (letter > 0x17F && letter < 0x386) ||
            fonts.first_missing(Face::regular, text)) {
            continue;
        }
        if (lines.back().size() > 60) lines.emplace_back();
        lines.back() += text;
    }
    ASSERT_GT(lines.size(), 6U);
    std::vector<Primitive> primitives;
    std::string all;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        primitives.emplace_back(line_of(lines[i], 5000 + static_cast<Centipoints>(i) * 2000));
        all += lines[i] + '\n';
    }
    EXPECT_EQ(PdfFile(written({a4(primitives)})).text(), all);
}

TEST(Pdf, IsIdentifiedByItsContent) {
    Page page = a4({line_of("Haul", 5000)});
    std::set<std::string> identifiers{trailer_id(PdfFile(written({page})))};
    identifiers.insert(trailer_id(PdfFile(written({page, page}))));
    identifiers.insert(trailer_id(PdfFile(written({a4({line_of("Haul", 5001)})}))));
    identifiers.insert(trailer_id(PdfFile(written({a4({line_of("Hold", 5000)})}))));
    page.title = "Another";
    identifiers.insert(trailer_id(PdfFile(written({page}))));
    page.language = "el";
    identifiers.insert(trailer_id(PdfFile(written({page}))));
    EXPECT_EQ(identifiers.size(), 6U);
    // Two equal strings of 16 bytes: the file was never revised.
    for (const std::string& identifier : identifiers) {
        EXPECT_TRUE(std::regex_match(identifier, std::regex("(<[0-9a-f]{32}>) \\1"))) << identifier;
    }
}

// pdftotext gives each word's box in points.
TEST(Pdf, SetsTextAsWideAsItMeasures) {
    Fonts fonts;
    for (const Centipoints tracking : {0, 150}) {
        const std::string word = "AVATARTYFAWAVALTOYOTVA";
        const Text text{3600, 9000, Face::condensed_bold, 3000, 0, tracking, word};
        const PdfFile pdf(written({a4({text})}));
        const std::string boxes = pdf.read("pdftotext -bbox", "-");
        const auto left = matches(boxes, "xMin=\"([0-9.]+)\"");
        const auto right = matches(boxes, "xMax=\"([0-9.]+)\"");
        ASSERT_EQ(left.size(), 1U) << boxes;
        const double measured = fonts.measure(text.face, text.size, word, tracking) / 100.0;
        // One thousandth of 30 pt for the last glyph, and the box may take in or
        // leave out the tracking after it.
        EXPECT_NEAR(std::stod(left[0]), 36.0, 0.001);
        EXPECT_NEAR(std::stod(right[0]) - std::stod(left[0]), measured, 0.035 + tracking / 100.0);
    }
}

TEST(Pdf, PutsThingsWhereThePageSaysFromTheTopLeft) {
    // 1 pt is 1.39 pixels; the page is 100 by 100 pixels.
    Page page = inch("");
    page.primitives = {
        Box{.x = 720, .y = 720, .width = 1440, .height = 720, .fill_grey = 50},
        Triangle{3600, 3600, 6480, 3600, 3600, 6480, 0},
        Line{.x1 = 3600, .y1 = 1080, .x2 = 6480, .y2 = 1080, .width = 288, .grey = 0},
        Circle{.x = 1440, .y = 5040, .radius = 720, .stroke_width = 288, .grey = 0},
    };
    const std::vector<Picture> pictures = PdfFile(written({page})).pictures();
    ASSERT_EQ(pictures.size(), 1U);
    const Picture& picture = pictures[0];
    ASSERT_EQ(picture.width, 100);
    EXPECT_NEAR(picture.at(15, 15), 128, 2);
    EXPECT_EQ(picture.at(15, 25), 255);
    EXPECT_EQ(picture.at(55, 55), 0);
    EXPECT_EQ(picture.at(85, 85), 255);
    EXPECT_EQ(picture.at(70, 15), 0);
    EXPECT_EQ(picture.at(10, 70), 0);
    EXPECT_EQ(picture.at(20, 60), 0);
    EXPECT_EQ(picture.at(20, 70), 255);
}

TEST(Pdf, RoundsTheCornersOfABoxAndNoMoreThanItCan) {
    Page sharp = inch("");
    sharp.primitives = {Box{.x = 720, .y = 720, .width = 5760, .height = 2880, .fill_grey = 0}};
    Page round = sharp;
    std::get<Box>(round.primitives[0]).radius = 99999;
    const std::vector<Picture> pictures = PdfFile(written({sharp, round})).pictures();
    ASSERT_EQ(pictures.size(), 2U);
    EXPECT_EQ(pictures[0].ink(), 80 * 40);
    // Half circles of 20 pixels at both ends.
    EXPECT_NEAR(pictures[1].ink(), 40 * 40 + 3.14159 * 20 * 20, 10);
}

TEST(Pdf, DrawsDotsThatAreRoundAndSpacedAsAsked) {
    Page page = inch("");
    // Each dot is 5 pixels across, one every 10 pixels, from 10 to 90.
    page.primitives = {
        Line{.x1 = 720, .y1 = 3600, .x2 = 6480, .y2 = 3600, .width = 360, .grey = 0, .dots = 720},
        Line{.x1 = 720, .y1 = 6480, .x2 = 6480, .y2 = 6480, .width = 360, .grey = 0}};
    const std::vector<Picture> pictures = PdfFile(written({page})).pictures();
    ASSERT_EQ(pictures.size(), 1U);
    const auto runs = [&](int y) {
        int count = 0;
        for (int x = 1; x < 100; ++x) {
            if (pictures[0].at(x, y) < 128 && pictures[0].at(x - 1, y) >= 128) ++count;
        }
        return count;
    };
    EXPECT_EQ(runs(50), 9);
    EXPECT_EQ(runs(90), 1);
    const double dots = 9 * std::numbers::pi * 2.5 * 2.5;
    EXPECT_NEAR(pictures[0].ink(), dots + 80 * 5, 12);
}

TEST(Pdf, WritesCoordinatesPastLibharusLargestReal) {
    const PdfFile pdf(written({a4({Line{-4000000, 0, 2147483647, 84189, 100, 0, 0}})}));
    const std::string content = pdf.read("qpdf --qdf --object-streams=disable", "-");
    EXPECT_NE(content.find("-40000 841.89 m\n21474836.47 0 l\n"), std::string::npos);
}

TEST(Pdf, SurvivesTextThatIsNotUtf8) {
    const PdfFile pdf(written({a4({line_of("a\xFF\xC3", 5000)})}));
    EXPECT_EQ(pdf.run("qpdf --check").status, 0);
    EXPECT_EQ(pdf.text().substr(0, 1), "a");
}

TEST(Pdf, ReportsWhatLibharuRefuses) {
    Fonts fonts;
    Page page = a4({line_of("Haul", 5000)});
    page.width = 0;
    const auto result = write_pdf({&page, 1}, fonts);
    ASSERT_FALSE(result.has_value());
    EXPECT_NE(result.error().detail.find("libharu error 0x"), std::string::npos);
    // The next document is not touched by it.
    page.width = size_of(Paper::a4).width;
    EXPECT_TRUE(write_pdf({&page, 1}, fonts).has_value());
}

TEST(Pdf, RefusesADocumentOfNoPages) {
    Fonts fonts;
    EXPECT_FALSE(write_pdf({}, fonts).has_value());
}

}  // namespace
}  // namespace stave::card
