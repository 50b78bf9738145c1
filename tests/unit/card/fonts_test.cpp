#include "backends/card/fonts.hpp"

#include <gtest/gtest.h>
#include <hb-ot.h>

#include <array>
#include <string>

namespace stave::card {
namespace {

constexpr std::array faces{Face::condensed_bold, Face::condensed_regular, Face::regular,
                           Face::medium};

TEST(Fonts, KernsInEveryFaceAndScript) {
    Fonts fonts;
    for (const Face face : faces) {
        for (const auto& [first, second] :
             {std::pair{"A", "V"}, std::pair{"Τ", "α"}, std::pair{"Т", "а"}}) {
            const Centipoints apart =
                fonts.measure(face, 4000, first) + fonts.measure(face, 4000, second);
            const std::string pair = std::string(first) + second;
            EXPECT_LT(fonts.measure(face, 4000, pair), apart - 50) << pair;
        }
    }
}

TEST(Fonts, GivesAllFiguresOneWidth) {
    Fonts fonts;
    for (const Face face : faces) {
        const Centipoints width = fonts.measure(face, 100000, "0");
        for (char figure = '1'; figure <= '9'; ++figure) {
            EXPECT_EQ(fonts.measure(face, 100000, std::string(1, figure)), width) << figure;
        }
        EXPECT_EQ(fonts.measure(face, 1000, "1711"), fonts.measure(face, 1000, "8888"));
    }
}

// A thin space is a fifth or sixth of an em (Unicode 15, section 6.2). Words keep a whole
// blank, and so does a blank at which a line may break.
TEST(Fonts, SetsAUnitsSymbolCloseToItsFigure) {
    Fonts fonts;
    for (const Face face : faces) {
        const auto blank = [&](const std::string& before, const std::string& text) {
            return fonts.measure(face, 100000, before + text) -
                   fonts.measure(face, 100000, before) -
                   fonts.measure(face, 100000, text.substr(text.find_first_not_of(" \u00A0")));
        };
        EXPECT_NEAR(blank("60", "\u00A0kg"), 100000 / 5, 300);
        EXPECT_NEAR(blank("20", "\u00A0%, easy"), 100000 / 5, 2000);
        EXPECT_GT(blank("60", "\u00A0Runden"), blank("60", "\u00A0kg"));
        EXPECT_GT(blank("60", " kg"), blank("60", "\u00A0kg"));
    }
}

TEST(Fonts, KeepsLettersApartThatALigatureWouldJoin) {
    Fonts fonts;
    for (const Face face : faces)
        EXPECT_EQ(fonts.shape(face, "office").glyphs.size(), 6U);
}

TEST(Fonts, ScalesWidthsAndAddsTrackingAfterEveryGlyph) {
    Fonts fonts;
    const std::int64_t advance = fonts.shape(Face::medium, "Rest").advance;
    EXPECT_EQ(fonts.units_per_em(Face::medium), 2048);
    EXPECT_EQ(fonts.measure(Face::medium, 2048 * 10, "Rest"), advance * 10);
    EXPECT_EQ(fonts.measure(Face::medium, 1000, "Rest", 70),
              fonts.measure(Face::medium, 1000, "Rest") + 4 * 70);
    EXPECT_EQ(fonts.measure(Face::medium, 1000, "", 70), 0);
}

TEST(Fonts, ForgetsShapesOnlyWhereThereAreTooMany) {
    Fonts fonts;
    const ShapedText* first = &fonts.shape(Face::regular, "Row");
    fonts.forget_shapes(1);
    EXPECT_EQ(&fonts.shape(Face::regular, "Row"), first);
    const std::int32_t advance = first->advance;
    static_cast<void>(fonts.shape(Face::medium, "Row"));
    fonts.forget_shapes(1);
    EXPECT_EQ(fonts.shape(Face::regular, "Row").advance, advance);
}

TEST(Fonts, GivesTheSameShapeAgainHoweverManyCameBetween) {
    Fonts fonts;
    const ShapedText& first = fonts.shape(Face::regular, "Row to the light");
    const std::int32_t advance = first.advance;
    for (int i = 0; i < 5000; ++i) {
        EXPECT_FALSE(fonts.shape(Face::regular, "set " + std::to_string(i)).glyphs.empty());
    }
    EXPECT_EQ(&fonts.shape(Face::regular, "Row to the light"), &first);
    EXPECT_EQ(first.advance, advance);
    EXPECT_NE(&fonts.shape(Face::medium, "Row to the light"), &first);
}

TEST(Fonts, TellsWhichTextEachGlyphDraws) {
    Fonts fonts;
    // E with a combining acute accent (3 bytes) has one glyph; x with one has two.
    const ShapedText& shaped = fonts.shape(Face::regular, "E\u0301x\u0301.");
    ASSERT_EQ(shaped.glyphs.size(), 4U);
    EXPECT_EQ(shaped.glyphs[0].id, fonts.shape(Face::regular, "\u00C9").glyphs[0].id);
    EXPECT_EQ(shaped.glyphs[0].cluster, 0U);
    EXPECT_EQ(shaped.glyphs[1].cluster, 3U);
    EXPECT_EQ(shaped.glyphs[2].cluster, 4U);
    EXPECT_EQ(shaped.glyphs[3].cluster, 6U);
}

TEST(Fonts, FindsTheFirstCharacterThatHasNoGlyph) {
    const Fonts fonts;
    for (const Face face : faces) {
        EXPECT_EQ(fonts.first_missing(face, "Ødegård 5 × 3 – 82½ kg ±2 ≥ 8\u00A0×"), std::nullopt);
        EXPECT_EQ(fonts.first_missing(face, "Κράτα ᾧ Держи Ё Việt"), std::nullopt);
        EXPECT_EQ(fonts.first_missing(face, "row → hold ✓"), U'→');
        EXPECT_EQ(fonts.first_missing(face, "\U0001F6A3"), U'\U0001F6A3');
        EXPECT_EQ(fonts.first_missing(face, ""), std::nullopt);
    }
}

TEST(Fonts, OutlivesTextThatIsNotUtf8) {
    Fonts fonts;
    for (const std::string_view text : {"\xFF", "a\xC3", "\xED\xA0\x80", "\xF4\x90\x80\x80"}) {
        EXPECT_EQ(fonts.first_missing(Face::regular, text), U'\uFFFD');
        EXPECT_FALSE(fonts.shape(Face::regular, text).glyphs.empty());
    }
}

// The name table of the file itself, as HarfBuzz reads it.
TEST(Fonts, NamesFacesAsTheirFilesDo) {
    const Fonts fonts;
    for (const Face face : faces) {
        const std::span<const std::byte> file = fonts.file(face);
        ASSERT_EQ(static_cast<const void*>(file.data()),
                  static_cast<const void*>(fonts.file(face).data()));
        hb_blob_t* blob = hb_blob_create(
            static_cast<const char*>(static_cast<const void*>(file.data())),
            static_cast<unsigned>(file.size()), HB_MEMORY_MODE_READONLY, nullptr, nullptr);
        hb_face_t* opened = hb_face_create(blob, 0);
        std::array<char, 64> name{};
        auto size = static_cast<unsigned>(name.size());
        hb_ot_name_get_utf8(opened, HB_OT_NAME_ID_POSTSCRIPT_NAME, HB_LANGUAGE_INVALID, &size,
                            name.data());
        EXPECT_EQ(std::string_view(name.data(), size), fonts.name(face));
        hb_face_destroy(opened);
        hb_blob_destroy(blob);
    }
}

}  // namespace
}  // namespace stave::card
