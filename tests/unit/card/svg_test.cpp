// Pictures drawn by rsvg-convert, held against the same page's PDF drawn by poppler;
// that they are XML is the opinion of Python's own parser.
#include "backends/card/svg/svg_writer.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <string>

#include "backends/card/qr.hpp"
#include "tests/unit/card/pdf_tools.hpp"

namespace stave::card {
namespace {

// Everything that can be drawn, on a page of 3 by 3 inches.
Page everything() {
    Modules code = qr("https://skerry.example/9", 200).value();
    code.x = 14000;
    code.y = 14000;
    Page page = a4({
        Open{Role::heading1, {}},
        Text{1000, 3000, Face::condensed_bold, 2000, 0, 0, "Slack & water"},
        Close{},
        Open{Role::figure, "A bar: <long>"},
        Box{1000, 4000, 9000, 1000, 0, 0, 0, 0},
        Text{1200, 4800, Face::medium, 800, 100, 80, "NOT READ"},
        Close{},
        Text{1000, 7000, Face::regular, 1200, 33, 0, "AVATAR Ώρα Ёж e\u0301"},
        Text{1000, 9000, Face::condensed_regular, 950, 30, 120, "To the light"},
        Line{1000, 9500, 12000, 9500, 80, 45, 300},
        Line{1000, 10000, 12000, 10000, 160, 0, 0},
        Box{1000, 11000, 3000, 3000, 500, -1, 90, 0},
        Circle{6000, 12500, 1500, 80, 0},
        Triangle{8000, 11000, 11000, 11000, 8000, 14000, 62},
        code,
        Link{1000, 15000, 2000, 2000, "https://skerry.example/?a=1&b=2"},
    });
    page.width = page.height = 21600;
    page.title = "Slack & <water>";
    return page;
}

std::string written_svg(const Page& page) {
    Fonts fonts;
    return write_svg(page, fonts);
}

TEST(Svg, LooksLikeThePdf) {
    const Page page = everything();
    const PdfFile pdf(written({page}));
    const std::vector<Picture> ours = pdf.pictures();
    const PdfFile drawn = drawn_svg(written_svg(page));
    const std::vector<Picture> theirs = drawn.pictures();
    ASSERT_EQ(ours.size(), 1U);
    ASSERT_EQ(theirs.size(), 1U);
    ASSERT_EQ(ours[0].pixels.size(), theirs[0].pixels.size());
    EXPECT_GT(ours[0].ink(), 5000);
    EXPECT_NEAR(ours[0].ink(), theirs[0].ink(), ours[0].ink() / 100);
    long difference = 0;
    for (std::size_t i = 0; i < ours[0].pixels.size(); ++i)
        difference += std::abs(int{ours[0].pixels[i]} - int{theirs[0].pixels[i]});
    // Of 255; edges of letters are smoothed in different ways.
    EXPECT_LT(static_cast<double>(difference) / static_cast<double>(ours[0].pixels.size()), 1.5);
    EXPECT_EQ(drawn.decoded_code(300), "https://skerry.example/9");
}

TEST(Svg, SaysWhatItShows) {
    const std::string svg = written_svg(everything());
    EXPECT_NE(svg.find("<title id=\"title\">Slack &amp; &lt;water&gt;</title>"), std::string::npos);
    EXPECT_NE(svg.find("<desc id=\"text\">Slack &amp; water\nA bar: &lt;long&gt;\n"
                       "AVATAR Ώρα Ёж e\u0301 To the light</desc>"),
              std::string::npos)
        << svg.substr(0, 600);
    EXPECT_NE(svg.find("role=\"img\""), std::string::npos);
    EXPECT_NE(svg.find(" lang=\"en-GB\" xml:lang=\"en-GB\""), std::string::npos);
    EXPECT_NE(svg.find("<a href=\"https://skerry.example/?a=1&amp;b=2\">"), std::string::npos);
}

TEST(Svg, NeedsNoFontsAndNothingFromElsewhere) {
    const std::string svg = written_svg(everything());
    for (const std::string word : {"<text", "font", "<image", "url(", "<style"})
        EXPECT_EQ(svg.find(word), std::string::npos) << word;
}

TEST(Svg, IsXmlWhateverTheTextHolds) {
    for (const std::string text : {"a\x01\x1F\xFF\xC3", "]]> <!-- & \"'", "\uFFFE\U0001F6A3"}) {
        Page page = everything();
        page.title = text;
        page.primitives.emplace_back(Text{.x = 100, .y = 900, .size = 1000, .text = text});
        EXPECT_TRUE(is_xml(written_svg(page))) << text;
    }
    EXPECT_FALSE(is_xml("<svg>&"));
}

TEST(Svg, IsTheSameBytesForTheSamePage) {
    Fonts used;
    static_cast<void>(write_svg(a4({Text{.text = "Something else first: ÅΩЖ"}}), used));
    EXPECT_EQ(write_svg(everything(), used), written_svg(everything()));
}

}  // namespace
}  // namespace stave::card
