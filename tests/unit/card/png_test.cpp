// Previews held against the same page's PDF drawn by poppler; they are read back by cairo,
// since nothing else here reads PNG.
#include "backends/card/png/png_writer.hpp"

#include <cairo.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <cstring>
#include <string>

#include "backends/card/qr.hpp"
#include "tests/unit/card/pdf_tools.hpp"

namespace stave::card {
namespace {

struct Source {
    std::string bytes;
    std::size_t at = 0;
};

extern "C" {
static cairo_status_t take(void* data, unsigned char* to, unsigned size) {
    auto& source = *static_cast<Source*>(data);
    if (source.bytes.size() - source.at < size) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(to, source.bytes.data() + source.at, size);
    source.at += size;
    return CAIRO_STATUS_SUCCESS;
}
}

// All channels are alike, so the first of them is the grey.
Picture picture_of(std::string png) {
    Source source{std::move(png)};
    cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(take, &source);
    EXPECT_EQ(cairo_surface_status(surface), CAIRO_STATUS_SUCCESS);
    Picture picture;
    picture.width = cairo_image_surface_get_width(surface);
    picture.height = cairo_image_surface_get_height(surface);
    const unsigned char* data = cairo_image_surface_get_data(surface);
    for (int y = 0; y < picture.height; ++y) {
        const unsigned char* row = data + y * cairo_image_surface_get_stride(surface);
        for (int x = 0; x < picture.width; ++x) {
            EXPECT_TRUE(row[4 * x] == row[4 * x + 1] && row[4 * x] == row[4 * x + 2]);
            picture.pixels.push_back(row[4 * x]);
        }
    }
    cairo_surface_destroy(surface);
    return picture;
}

Page everything() {
    Page page = a4({
        Box{1000, 4000, 9000, 1000, 0, 0, 0, 0},
        Text{1200, 4800, Face::medium, 800, 100, 80, "WHITE"},
        Text{1000, 3000, Face::condensed_bold, 2000, 0, 0, "Slack & water"},
        Text{1000, 7000, Face::regular, 1200, 33, 0, "AVATAR Ώρα Ёж e\u0301"},
        Line{1000, 9500, 12000, 9500, 80, 45, 300},
        Line{1000, 10000, 12000, 10000, 160, 0, 0},
        Box{1000, 11000, 3000, 3000, 500, -1, 90, 0},
        Circle{6000, 12500, 1500, 80, 0},
        Triangle{8000, 11000, 11000, 11000, 8000, 14000, 62},
    });
    page.width = page.height = 21600;
    return page;
}

TEST(Png, LooksLikeThePdf) {
    Fonts fonts;
    const Page page = everything();
    const Picture ours = picture_of(write_png(page, fonts, 100).value());
    // poppler drawing with cairo: its own rasteriser moves edges to whole pixels.
    const PdfFile pdf(written({page}));
    const Picture theirs = picture_of(pdf.read("pdftocairo -png -singlefile -r 100", "-"));
    ASSERT_EQ(ours.pixels.size(), theirs.pixels.size());
    EXPECT_NEAR(ours.ink(), theirs.ink(), ours.ink() / 100);
    long difference = 0;
    for (std::size_t i = 0; i < ours.pixels.size(); ++i)
        difference += std::abs(int{ours.pixels[i]} - int{theirs.pixels[i]});
    EXPECT_LT(static_cast<double>(difference) / static_cast<double>(ours.pixels.size()), 1.5);
}

// Its edges lie between pixels, where poppler and cairo differ; what counts is that it is
// read.
TEST(Png, ShowsCodesThatAreRead) {
    Modules code = qr("https://skerry.example/9", 200).value();
    code.x = code.y = 3000;
    Fonts fonts;
    for (const int dots : {100, 300}) {
        const auto png = write_png(a4({code}), fonts, dots);
        EXPECT_EQ(decoded_code_of_png(png.value()), "https://skerry.example/9") << dots;
    }
}

TEST(Png, HasTheSizeThatIsAskedFor) {
    Fonts fonts;
    const Picture small = picture_of(write_png(a4({}), fonts, 72).value());
    EXPECT_EQ(small.width, 595);
    EXPECT_EQ(small.height, 842);
    EXPECT_EQ(small.ink(), 0);
    EXPECT_EQ(picture_of(write_png(a4({}), fonts, 144).value()).width, 1191);
}

TEST(Png, IsTheSameBytesForTheSamePageAndRefusesOneOfNoSize) {
    Fonts first;
    Fonts second;
    EXPECT_EQ(write_png(everything(), first, 50), write_png(everything(), second, 50));
    Page page = everything();
    page.width = 0;
    const auto none = write_png(page, first, 50);
    EXPECT_FALSE(none.has_value());
}

}  // namespace
}  // namespace stave::card
