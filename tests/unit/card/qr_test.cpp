// Codes printed in a PDF, drawn by poppler and read back by zbarimg.
#include "backends/card/qr.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>
#include <utility>

#include "tests/unit/card/pdf_tools.hpp"

namespace stave::card {
namespace {

// As they are on a card: 30 pt from the corner, the smallest module that is allowed.
Page page_with(Modules code) {
    code.x = code.y = 3000;
    Page page = a4({std::move(code)});
    page.width = page.height = 20000;
    return page;
}

TEST(Qr, IsReadBackAtScreenAndPrintResolutions) {
    for (const std::string text : {"https://skerry.example/cards/session-9-slack-water.pdf",
                                   "0123456789", "SLACK WATER", "a"}) {
        const auto code = qr(text, least_module);
        ASSERT_TRUE(code.has_value()) << text;
        const PdfFile pdf(written({page_with(*code)}));
        EXPECT_EQ(pdf.decoded_code(100), text);
        EXPECT_EQ(pdf.decoded_code(300), text);
        EXPECT_EQ(pdf.run("qpdf --check").status, 0);
    }
}

TEST(Qr, ReadsBackLettersBeyondAscii) {
    const std::string text = "Força para o cais – Κύμα";
    const PdfFile pdf(written({page_with(qr(text, points(3)).value())}));
    EXPECT_EQ(pdf.decoded_code(300), text);
}

// ISO/IEC 18004: version v has 17 + 4 v modules a side; 40-M holds 2331 bytes.
TEST(Qr, IsRefusedWhenNoVersionHoldsTheText) {
    EXPECT_EQ(qr("a", least_module).value().side, 21);
    EXPECT_EQ(qr(std::string(2331, 'a'), least_module).value().side, 177);
    EXPECT_FALSE(qr(std::string(2332, 'a'), least_module).has_value());
    EXPECT_FALSE(qr("", least_module).has_value());
    EXPECT_FALSE(qr(std::string("a\0b", 3), least_module).has_value());
}

// The finder patterns stand in three corners: seven dark modules a side.
TEST(Qr, JoinsModulesIntoRectanglesThatDoNotOverlap) {
    const Modules code = qr("https://skerry.example/9", least_module).value();
    std::set<std::pair<int, int>> dark;
    std::size_t area = 0;
    for (const Modules::Rectangle& part : code.dark) {
        for (int x = part.x; x < part.x + part.width; ++x) {
            for (int y = part.y; y < part.y + part.height; ++y) {
                dark.insert({x, y});
                ++area;
            }
        }
    }
    EXPECT_EQ(dark.size(), area);
    EXPECT_LT(code.dark.size(), area / 2);
    for (int i = 0; i < 7; ++i) {
        EXPECT_TRUE(dark.contains({i, 0}) && dark.contains({code.side - 1 - i, 0}));
        EXPECT_TRUE(dark.contains({0, code.side - 1 - i}));
    }
    EXPECT_FALSE(dark.contains({7, 0}));
}

}  // namespace
}  // namespace stave::card
