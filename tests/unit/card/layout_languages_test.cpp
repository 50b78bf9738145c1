// A card in every language: its words can be drawn, and no page loses one of them.
#include <gtest/gtest.h>

#include <array>
#include <string>

#include "backends/card/layout.hpp"
#include "compiler/wording/words.hpp"
#include "tests/unit/card/page_checks.hpp"
#include "tests/unit/card/sample_sessions.hpp"

namespace stave::card {
namespace {

using wording::Language;
using wording::Plural;
using wording::Word;

constexpr std::array faces{Face::condensed_bold, Face::condensed_regular, Face::regular,
                           Face::medium};

class InEveryLanguage : public testing::TestWithParam<Language> {};

TEST_P(InEveryLanguage, EveryFaceDrawsEveryWord) {
    static constexpr std::array words{
#define STAVE_WORDS(id, en, pt, es, fr, de, pl, el) Word::id,
#include "compiler/wording/words.def"
    };
    static constexpr std::array nouns{
#define STAVE_NOUN(id, en, pt, es, fr, de, pl, el) wording::Noun::id,
#include "compiler/wording/words.def"
    };
    const Fonts fonts;
    for (const Face face : faces) {
        for (const Word id : words) {
            const std::string_view word = wording::word(GetParam(), id);
            EXPECT_FALSE(fonts.first_missing(face, word)) << word;
        }
        for (const wording::Noun id : nouns) {
            for (const Plural plural : {Plural::one, Plural::few, Plural::many, Plural::other}) {
                const std::string_view word = wording::noun(GetParam(), id, plural);
                EXPECT_FALSE(fonts.first_missing(face, word)) << word;
            }
        }
    }
}

TEST_P(InEveryLanguage, SampleSessionsAreCleanPagesOnEveryPaper) {
    Fonts fonts;
    for (const Paper paper : papers) {
        for (const stave::test::Sample& sample : stave::test::all_samples()) {
            DiagnosticSink sink;
            const auto pages = lay_out({}, sample.session, sample.timeline,
                                       {.revision = "7f3ac2",
                                        .paper = paper,
                                        .has_technique = false,
                                        .language = GetParam()},
                                       fonts, sink);
            if (!pages) continue;
            for (const Page& page : *pages) {
                EXPECT_EQ(page.language, wording::tag(GetParam()));
                for (const std::string& fault : test::faults_of(page, fonts))
                    ADD_FAILURE() << sample.name << " on " << name_of(paper) << ": " << fault;
            }
        }
    }
}

// Labels stand in columns of their own: the value beside them begins behind their end.
TEST_P(InEveryLanguage, LabelsOfTheHeadAreShorterThanTheirColumn) {
    Fonts fonts;
    for (const Word label :
         {Word::name_label, Word::date_label, Word::time_label, Word::place_label, Word::for_label,
          Word::coach_label, Word::about_label, Word::sets_label}) {
        // Capitals of 7 pt in 33 pt, as on A5, the narrowest card with such a column.
        const Centipoints width =
            fonts.measure(Face::medium, points(7), wording::word(GetParam(), label), points(0.7));
        EXPECT_LT(width, points(33)) << wording::word(GetParam(), label);
    }
}

INSTANTIATE_TEST_SUITE_P(Layout, InEveryLanguage, testing::ValuesIn(wording::languages),
                         [](const auto& language) {
                             return std::string(wording::tag(language.param));
                         });

}  // namespace
}  // namespace stave::card
