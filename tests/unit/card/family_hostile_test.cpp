// Font files that were cut short or have wrong bytes: each is refused, or cards come out of
// it without a crash. The bytes are the same in every run.
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <string>

#include "backends/card/family.hpp"
#include "backends/card/layout.hpp"
#include "backends/card/pdf/pdf_writer.hpp"
#include "backends/card/png/png_writer.hpp"
#include "backends/card/svg/svg_writer.hpp"
#include "tests/fuzz/varied_sessions.hpp"
#include "tests/unit/card/sample_sessions.hpp"

namespace stave::card {
namespace {

std::string good_bytes() {
    std::ifstream file("/usr/share/fonts/truetype/dejavu/DejaVuSansMono.ttf", std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

// Whether it was taken; then cards have been made of it in every form.
bool outlives(std::string bytes) {
    static const stave::test::Sample sample = stave::test::all_samples().front();
    auto chosen = choose_family("folder", {{"one.ttf", std::move(bytes)}});
    if (!chosen) return false;
    Fonts fonts(chosen->family);
    DiagnosticSink sink;
    const auto pages =
        lay_out({}, sample.session, sample.timeline, {.revision = "7f3ac2"}, fonts, sink);
    if (!pages) {
        EXPECT_TRUE(sink.has_errors());
        return true;
    }
    EXPECT_TRUE(write_pdf(*pages, fonts).has_value());
    EXPECT_FALSE(write_svg(pages->front(), fonts).empty());
    EXPECT_TRUE(write_png(pages->front(), fonts, 36).has_value());
    return true;
}

TEST(HostileFonts, CutShortAreRefused) {
    const std::string good = good_bytes();
    ASSERT_GT(good.size(), 100'000U);
    testing::Chance chance(11);
    for (std::size_t size = 0; size < 300; ++size)
        EXPECT_FALSE(outlives(good.substr(0, size))) << size;
    for (int i = 0; i < 100; ++i) {
        const std::size_t size = chance.pick(good.size());
        EXPECT_FALSE(outlives(good.substr(0, size))) << size;
    }
}

TEST(HostileFonts, WithWrongBytesAreOutlived) {
    const std::string good = good_bytes();
    testing::Chance chance(12);
    int taken = 0;
    for (int i = 0; i < 30; ++i) {
        std::string bytes = good;
        const std::size_t wrong = 1 + chance.pick(200);
        for (std::size_t one = 0; one < wrong; ++one) {
            const std::size_t place = chance.pick(good.size());
            bytes[place] = static_cast<char>(chance.pick(256));
        }
        if (outlives(std::move(bytes))) ++taken;
    }
    EXPECT_GT(taken, 0);
}

// Where it hurts most: the directory, and the begin of each table, which has its counts
// and offsets.
TEST(HostileFonts, WithWrongHeadsAreOutlived) {
    const std::string good = good_bytes();
    constexpr std::size_t directory_end = 12 + 16 * 20;
    testing::Chance chance(13);
    for (int i = 0; i < 60; ++i) {
        std::string bytes = good;
        const std::size_t entry = 12 + 16 * chance.pick(18);
        std::size_t table = 0;
        for (std::size_t byte = 0; byte < 4; ++byte)
            table = table << 8U | static_cast<unsigned char>(good[entry + 8 + byte]);
        const bool in_directory = chance.pick(4) == 0;
        for (int one = 0; one < 3; ++one) {
            const std::size_t place =
                in_directory ? chance.pick(directory_end) : table + chance.pick(64);
            const std::size_t value = chance.one_in(3) ? 0xFF : chance.pick(256);
            if (place < bytes.size()) bytes[place] = static_cast<char>(value);
        }
        static_cast<void>(outlives(std::move(bytes)));
    }
}

}  // namespace
}  // namespace stave::card
