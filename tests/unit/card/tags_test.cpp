// What a card says to those who cannot see it, read back by poppler and mutool.
#include "backends/card/pdf/pdf_writer.hpp"

#include <gtest/gtest.h>

#include <regex>
#include <string>

#include "backends/card/pdf/structure.hpp"
#include "tests/unit/card/pdf_tools.hpp"

namespace stave::card {
namespace {

Text words(std::string text, Centipoints y) {
    return {.x = 3600, .y = y, .size = 1000, .text = std::move(text)};
}

Page with_parts() {
    return a4({
        Text{.x = 3600, .y = 3600, .size = 800, .text = "SESSION 9"},
        Open{Role::heading1, {}},
        words("Slack water", 5000),
        Close{},
        Open{Role::figure, "A Warm-up 5 min, B Haul 12 min"},
        Box{.x = 3600, .y = 6000, .width = 9000, .height = 500, .fill_grey = 0},
        words("5 min", 6900),
        Box{.x = 13600, .y = 6000, .width = 9000, .height = 500, .fill_grey = 0},
        words("12 min", 7900),
        Close{},
        Open{Role::section, {}},
        Line{.x1 = 3600, .y1 = 8000, .x2 = 9000, .y2 = 8000, .width = 100},
        Open{Role::heading2, {}},
        words("Haul", 9000),
        Close{},
        words("rest", 10000),
        words("2 min", 11000),
        Open{Role::list, {}},
        Open{Role::item, {}},
        words("Deadlift", 12000),
        Open{Role::link, {}},
        words("How it goes", 13000),
        Link{3600, 12200, 9000, 1200, "https://skerry.example/deadlift?a=(1)"},
        Close{},
        words("push the floor away", 14000),
        Close{},
        Close{},
        Close{},
        Open{Role::artifact, {}},
        words("page 1", 80000),
        Close{},
    });
}

// Kinds of elements with what is read out in them; attributes left out.
TEST(Tags, TellTheirPartsInReadingOrder) {
    const PdfFile pdf(written({with_parts()}));
    // The number of the link's object is no matter.
    const std::string tree =
        std::regex_replace(pdf.read("pdfinfo -struct-text"), std::regex("Object \\d+"), "Object");
    EXPECT_EQ(tree,
              "Document\n"
              "  P (block)\n    \"SESSION 9\"\n"
              "  H1 (block)\n    \"Slack water\"\n"
              "  Figure\n    \"\"\n    \"5 min 12 min\"\n"
              "  Sect\n"
              "    H2 (block)\n      \"Haul\"\n"
              "    P (block)\n      \"rest 2 min\"\n"
              "    L (block)\n      LI (block)\n        LBody (block)\n"
              "          \"Deadlift\"\n"
              "          Link (inline)\n            \"How it goes\"\n            Object 0\n"
              "          \"push the floor away\"\n");
    EXPECT_EQ(pdf.run("qpdf --check").status, 0);
}

TEST(Tags, AreAnnouncedInTheCatalogue) {
    const PdfFile pdf(written({with_parts()}));
    const std::string info = pdf.read("pdfinfo");
    EXPECT_NE(info.find("Tagged:          yes\n"), std::string::npos) << info;
    const std::string catalogue = pdf.read("mutool show", "trailer/Root");
    EXPECT_NE(catalogue.find("/Lang (en-GB)"), std::string::npos) << catalogue;
    EXPECT_NE(catalogue.find("/Marked true"), std::string::npos) << catalogue;
    const std::string page = pdf.read("mutool show", "pages/1");
    EXPECT_NE(page.find("/Tabs /S"), std::string::npos) << page;
    EXPECT_NE(page.find("/StructParents 0"), std::string::npos) << page;
}

TEST(Tags, GiveFiguresTheirAlternative) {
    const PdfFile pdf(written({with_parts()}));
    const std::string figure = pdf.read("mutool show -g", "trailer/Root/StructTreeRoot/K/K/3");
    EXPECT_NE(figure.find("/S/Figure"), std::string::npos) << figure;
    EXPECT_NE(figure.find("/Alt(A Warm-up 5 min, B Haul 12 min)"), std::string::npos) << figure;
}

TEST(Tags, LeadToWhereALinkSays) {
    const PdfFile pdf(written({with_parts()}));
    const std::string page = pdf.read("mutool show -g", "pages/1/Annots/1");
    EXPECT_NE(page.find("/URI(https://skerry.example/deadlift?a=\\(1\\))"), std::string::npos)
        << page;
    EXPECT_NE(page.find("/StructParent 1"), std::string::npos) << page;
    EXPECT_NE(page.find("/Rect[36 707.89 126 719.89]"), std::string::npos) << page;
}

TEST(Tags, DrawDecorationAndArtifactsApart) {
    const Page page = with_parts();
    const Structure structure = structure_of({&page, 1});
    ASSERT_EQ(structure.pages.size(), 1U);
    const PageStructure& parts = structure.pages.front();
    ASSERT_EQ(parts.shapes.size(), 2U);
    EXPECT_TRUE(parts.shapes[0].number.has_value());
    EXPECT_EQ(parts.shapes[0].primitives.size(), 2U);
    EXPECT_FALSE(parts.shapes[1].number.has_value());
    EXPECT_FALSE(parts.texts.back().number.has_value());
    const PdfFile pdf(written({page}));
    // What poppler reads without the tree has the artifact too.
    EXPECT_NE(pdf.text().find("page 1"), std::string::npos);
    EXPECT_EQ(pdf.read("pdfinfo -struct-text").find("page 1"), std::string::npos);
}

TEST(Tags, GoOnOverPagesInOneTree) {
    const PdfFile pdf(written({with_parts(), a4({words("Second", 5000)})}));
    const std::string tree = pdf.read("pdfinfo -struct-text");
    EXPECT_NE(tree.find("push the floor away\"\n  P (block)\n    \"Second\"\n"), std::string::npos)
        << tree;
    EXPECT_EQ(tree.find("Document"), tree.rfind("Document"));
    EXPECT_EQ(pdf.run("qpdf --check").status, 0);
}

TEST(Tags, HaveNoEmptyPartsAndForgiveMarksThatDoNotMatch) {
    const PdfFile pdf(written({a4({Close{}, Open{Role::section, {}}, Open{Role::heading2, {}},
                                   Close{}, Close{}, Open{Role::list, {}}, words("Haul", 5000)})}));
    EXPECT_EQ(pdf.read("pdfinfo -struct-text"),
              "Document\n  L (block)\n    LI (block)\n      LBody (block)\n"
              "        \"Haul\"\n");
}

// An XMP packet is XML; poppler gives it back as it stands in the file.
TEST(Metadata, RepeatsTitleAndLanguage) {
    Page page = a4({words("Haul", 5000)});
    page.title = "Tide & <Tow>";
    const PdfFile pdf(written({page}));
    const std::string packet = pdf.read("pdfinfo -meta");
    EXPECT_NE(packet.find("Tide &amp; &lt;Tow&gt;</rdf:li>"), std::string::npos) << packet;
    EXPECT_NE(packet.find("<rdf:li>en-GB</rdf:li>"), std::string::npos) << packet;
    EXPECT_EQ(packet.find("Date"), std::string::npos) << packet;
}

TEST(Metadata, HasADateOnlyWhenOneIsHandedIn) {
    Fonts fonts;
    const Page page = a4({words("Haul", 5000)});
    // 2026-11-26 11:32:10 UTC, from `date -u -d @1795692730`.
    const auto made = std::chrono::sys_seconds{std::chrono::seconds{1'795'692'730}};
    const PdfFile pdf(write_pdf({&page, 1}, fonts, made).value());
    EXPECT_NE(pdf.read("pdfinfo -isodates").find("CreationDate:    2026-11-26T11:32:10Z"),
              std::string::npos);
    EXPECT_NE(pdf.read("pdfinfo -meta").find("<xmp:CreateDate>2026-11-26T11:32:10Z<"),
              std::string::npos);
    EXPECT_NE(write_pdf({&page, 1}, fonts).value(), write_pdf({&page, 1}, fonts, made).value());
}

}  // namespace
}  // namespace stave::card
