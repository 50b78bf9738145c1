// Cards in another family: which files are chosen, which are refused, and that pages stay
// clean. DejaVu is that of Debian's fonts-dejavu-core.
#include "backends/card/family.hpp"

#include <gtest/gtest.h>
#include <hb-subset.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <string>

#include "backends/card/fonts.hpp"
#include "backends/card/layout.hpp"
#include "backends/card/pdf/pdf_writer.hpp"
#include "backends/card/svg/svg_writer.hpp"
#include "compiler/wording/words.hpp"
#include "tests/unit/card/laid_out.hpp"
#include "tests/unit/card/page_checks.hpp"
#include "tests/unit/card/pdf_tools.hpp"
#include "tests/unit/card/sample_sessions.hpp"

namespace stave::card {
namespace {

constexpr std::array faces{Face::condensed_bold, Face::condensed_regular, Face::regular,
                           Face::medium};

std::string bytes_of(const std::string& name) {
    std::ifstream file("/usr/share/fonts/truetype/dejavu/" + name, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

FontFile file_named(const std::string& name) {
    return {name, bytes_of(name)};
}

ChosenFamily chosen(std::vector<FontFile> files) {
    auto family = choose_family("folder", std::move(files));
    EXPECT_TRUE(family.has_value());
    return family.value_or(ChosenFamily{});
}

Family dejavu() {
    return chosen({file_named("DejaVuSans-Bold.ttf"), file_named("DejaVuSans.ttf")}).family;
}

std::optional<Code> refusal_of(std::string bytes) {
    auto family = choose_family("folder", {{"one.ttf", std::move(bytes)}});
    if (family) return std::nullopt;
    EXPECT_EQ(family.error().arguments.front(),
              family.error().code == Code::font_none ? "folder" : "one.ttf");
    return family.error().code;
}

// Where a table's entry stands in the directory (OpenType 1.9, "Table directory").
std::size_t entry_of(const std::string& bytes, const std::string& table) {
    return bytes.find(table, 12);
}

std::size_t place_of(const std::string& bytes, const std::string& table) {
    std::size_t place = 0;
    for (std::size_t i = 0; i < 4; ++i)
        place = place << 8U | static_cast<unsigned char>(bytes[entry_of(bytes, table) + 8 + i]);
    return place;
}

// A regular face with these bits for its embedding.
std::string with_rights(unsigned rights) {
    std::string bytes = bytes_of("DejaVuSans.ttf");
    const std::size_t place = place_of(bytes, "OS/2") + 8;
    bytes[place] = static_cast<char>(rights >> 8U);
    bytes[place + 1] = static_cast<char>(rights & 0xFFU);
    return bytes;
}

TEST(Family, IsTheProgramsOwnWithoutAnother) {
    const Family own;
    EXPECT_TRUE(own.is_own());
    EXPECT_EQ(own.face(Face::medium).name, "Roboto-Medium");
    EXPECT_EQ(own.mark(), "");
}

TEST(Family, TakesTheNearestFileForEachFace) {
    const Family family = dejavu();
    EXPECT_FALSE(family.is_own());
    EXPECT_EQ(family.face(Face::condensed_bold).name, "DejaVuSans-Bold");
    EXPECT_EQ(family.face(Face::condensed_regular).name, "DejaVuSans");
    EXPECT_EQ(family.face(Face::regular).name, "DejaVuSans");
    EXPECT_EQ(family.face(Face::medium).name, "DejaVuSans");
    const Family one = chosen({file_named("DejaVuSerif-Bold.ttf")}).family;
    for (const Face face : faces)
        EXPECT_EQ(one.face(face).name, "DejaVuSerif-Bold");
    EXPECT_NE(one.mark(), family.mark());
}

TEST(Family, TakesOneFamilyOfSeveralAndSaysSo) {
    const ChosenFamily several =
        chosen({file_named("DejaVuSansMono-Bold.ttf"), file_named("DejaVuSansMono.ttf"),
                file_named("DejaVuSerif.ttf"), file_named("DejaVuSerif-Bold.ttf"),
                file_named("DejaVuSans.ttf"), file_named("DejaVuSans-Bold.ttf")});
    EXPECT_EQ(several.family.face(Face::regular).name, "DejaVuSans");
    EXPECT_EQ(several.family.face(Face::condensed_bold).name, "DejaVuSans-Bold");
    ASSERT_EQ(several.notes.size(), 1U);
    EXPECT_EQ(several.notes[0].code, Code::font_families);
    EXPECT_EQ(
        several.notes[0].arguments,
        (std::vector<std::string>{"folder", "DejaVu Sans", "DejaVu Sans Mono, DejaVu Serif"}));
    EXPECT_TRUE(chosen({file_named("DejaVuSans.ttf")}).notes.empty());
}

// OpenType 1.9, `OS/2`: bit 0 of fsSelection, at byte 62, says italic.
TEST(Family, NeverTakesSlantedLetters) {
    std::string slanted = bytes_of("DejaVuSans.ttf");
    slanted[place_of(slanted, "OS/2") + 63] |= 1;
    const ChosenFamily upright = chosen({{"a.ttf", slanted}, file_named("DejaVuSans-Bold.ttf")});
    EXPECT_EQ(upright.family.face(Face::regular).name, "DejaVuSans-Bold");
    const auto refused = choose_family("folder", {{"a.ttf", slanted}});
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().code, Code::font_slanted);
    EXPECT_EQ(refused.error().arguments.front(), "folder");
}

TEST(Family, RefusesFilesItCannotUse) {
    const std::string good = bytes_of("DejaVuSans.ttf");
    EXPECT_EQ(refusal_of(good), std::nullopt);
    EXPECT_EQ(choose_family("folder", {}).error().code, Code::font_none);
    EXPECT_EQ(refusal_of("OTTO" + good.substr(4)), Code::font_outlines);
    EXPECT_EQ(refusal_of("wOF2" + good.substr(4)), Code::font_outlines);
    EXPECT_EQ(refusal_of("ttcf" + good.substr(4)), Code::font_collection);
    EXPECT_EQ(refusal_of("%PDF" + good.substr(4)), Code::font_damaged);
    EXPECT_EQ(refusal_of(""), Code::font_damaged);
    EXPECT_EQ(refusal_of(good.substr(0, good.size() - 1)), Code::font_damaged);
    std::string without = good;
    without[entry_of(without, "glyf")] = 'x';
    EXPECT_EQ(refusal_of(without), Code::font_damaged);
    without.replace(entry_of(without, "name"), 4, "CFF ");
    EXPECT_EQ(refusal_of(without), Code::font_outlines);
    // A face of signs: its map of characters is empty.
    std::string signs = good;
    const std::size_t map = place_of(signs, "cmap");
    signs[map + 2] = signs[map + 3] = 0;
    EXPECT_EQ(refusal_of(signs), Code::font_none);
}

// OpenType 1.9, `OS/2`, fsType: 2 forbids, 4 and 8 permit what a printed card needs, and of
// several the least strict counts; 0x100 forbids subsets, 0x200 all but pictures.
TEST(Family, KeepsToTheLicenceInTheFile) {
    for (const unsigned rights : {0U, 4U, 8U, 12U, 6U})
        EXPECT_EQ(refusal_of(with_rights(rights)), std::nullopt) << rights;
    for (const unsigned rights : {2U, 0x100U, 0x104U, 0x200U, 0x208U})
        EXPECT_EQ(refusal_of(with_rights(rights)), Code::font_licence) << rights;
    // What is not taken may forbid what it likes.
    std::string mono = bytes_of("DejaVuSansMono.ttf");
    mono[place_of(mono, "OS/2") + 9] = 2;
    const ChosenFamily others = chosen({{"m.ttf", mono}, file_named("DejaVuSans.ttf")});
    EXPECT_EQ(others.family.face(Face::regular).name, "DejaVuSans");
}

TEST(Family, GivesAllFiguresOneWidth) {
    Fonts fonts(dejavu());
    for (const Face face : faces)
        EXPECT_EQ(fonts.measure(face, 1000, "1711"), fonts.measure(face, 1000, "8888"));
}

TEST(Family, IsEmbeddedByItsNames) {
    Fonts fonts(dejavu());
    DiagnosticSink sink;
    const stave::test::Sample sample = stave::test::all_samples().front();
    const auto pages =
        lay_out({}, sample.session, sample.timeline, {.revision = "7f3ac2"}, fonts, sink);
    ASSERT_TRUE(pages.has_value());
    const std::string pdf = write_pdf(*pages, fonts).value();
    // poppler's opinion.
    const std::string listed = PdfFile(pdf).read("pdffonts");
    EXPECT_NE(listed.find("+DejaVuSans-Bold "), std::string::npos) << listed;
    EXPECT_NE(listed.find("+DejaVuSans "), std::string::npos) << listed;
    EXPECT_EQ(listed.find("Roboto"), std::string::npos) << listed;
    EXPECT_EQ(pdf, write_pdf(*pages, fonts).value());
    // The names of its glyphs differ from those of our own faces.
    EXPECT_NE(write_svg(pages->front(), fonts).find("-" + fonts.family().mark() + "\""),
              std::string::npos);
}

// The English letters of a face, cut out by HarfBuzz.
std::string english_part(const std::string& whole) {
    hb_blob_t* const blob = hb_blob_create(whole.data(), static_cast<unsigned>(whole.size()),
                                           HB_MEMORY_MODE_READONLY, nullptr, nullptr);
    hb_face_t* const face = hb_face_create(blob, 0);
    hb_subset_input_t* const input = hb_subset_input_create_or_fail();
    hb_set_add_range(hb_subset_input_unicode_set(input), 0x20, 0xFF);
    hb_face_t* const part = hb_subset_or_fail(face, input);
    hb_blob_t* const bytes = hb_face_reference_blob(part);
    unsigned size = 0;
    const char* const data = hb_blob_get_data(bytes, &size);
    std::string result(data, size);
    hb_blob_destroy(bytes);
    hb_face_destroy(part);
    hb_subset_input_destroy(input);
    hb_face_destroy(face);
    hb_blob_destroy(blob);
    return result;
}

// A Greek card's labels, of a family without Greek letters.
TEST(Family, MustHaveTheCardsOwnWords) {
    Fonts fonts(chosen({{"one.ttf", english_part(bytes_of("DejaVuSans.ttf"))}}).family);
    for (const auto language : {wording::Language::english, wording::Language::greek}) {
        DiagnosticSink sink;
        program::Item item = stave::test::movement("squat", stave::test::each_of({8}));
        const stave::test::Sample sample = test::of_item(item);
        const auto pages = lay_out({}, sample.session, sample.timeline,
                                   {.revision = "7f3ac2",
                                    .paper = Paper::a4,
                                    .has_technique = false,
                                    .language = language},
                                   fonts, sink);
        const bool is_greek = language == wording::Language::greek;
        EXPECT_EQ(pages.has_value(), !is_greek);
        ASSERT_EQ(sink.sorted().size(), is_greek ? 1U : 0U);
        if (!is_greek) continue;
        EXPECT_EQ(sink.sorted().front().code, Code::font_sign);
        EXPECT_EQ(sink.sorted().front().arguments.front(), "DejaVuSans");
        EXPECT_TRUE(sink.sorted().front().arguments.back().starts_with("U+03"));
    }
}

// A wide family either fits, without anything that touches, or is refused.
TEST(Family, KeepsPagesCleanOnEveryPaper) {
    for (const char* name : {"DejaVuSans", "DejaVuSerif", "DejaVuSansMono"}) {
        Fonts fonts(chosen({file_named(std::string(name) + "-Bold.ttf"),
                            file_named(std::string(name) + ".ttf")})
                        .family);
        for (const Paper paper : papers) {
            for (const wording::Language language :
                 {wording::Language::spanish, wording::Language::greek}) {
                for (const stave::test::Sample& sample : stave::test::all_samples()) {
                    DiagnosticSink sink;
                    const auto pages = lay_out({}, sample.session, sample.timeline,
                                               {.revision = "7f3ac2",
                                                .paper = paper,
                                                .has_technique = false,
                                                .language = language},
                                               fonts, sink);
                    if (!pages) continue;
                    for (const Page& page : *pages) {
                        for (const std::string& fault : test::faults_of(page, fonts)) {
                            ADD_FAILURE() << name << ", " << sample.name << " on " << name_of(paper)
                                          << " in " << wording::tag(language) << ": " << fault;
                        }
                    }
                }
            }
        }
    }
}

}  // namespace
}  // namespace stave::card
