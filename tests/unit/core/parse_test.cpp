// How lines are cut and classified, and what the grammar itself promises.
#include <gtest/gtest.h>

#include <tao/pegtl/contrib/analyze.hpp>

#include "compiler/names/names.hpp"
#include "compiler/parse/classify.hpp"
#include "compiler/parse/line_scanner.hpp"
#include "grammar/session.hpp"

// Words and units of the vocabulary always consume what they match.
template <typename Name, typename Text, auto Accepts>
struct tao::pegtl::analyze_traits<Name, stave::grammar::accepted<Text, Accepts>>
    : tao::pegtl::analyze_any_traits<> {};

namespace stave::tests {
namespace {

using grammar::LineKind;

LineKind kind_of(std::string_view head) {
    return parse::classify(head).kind;
}

TEST(Grammar, NeverLoopsWithoutProgress) {
    // PEGTL's own analysis of the rules: 0 problems.
    EXPECT_EQ(tao::pegtl::analyze<grammar::dose_body>(), 0U);
    EXPECT_EQ(tao::pegtl::analyze<grammar::format_body>(), 0U);
    EXPECT_EQ(tao::pegtl::analyze<grammar::when_body>(), 0U);
    EXPECT_EQ(tao::pegtl::analyze<grammar::kit_body>(), 0U);
    EXPECT_EQ(tao::pegtl::analyze<grammar::fault_body>(), 0U);
    EXPECT_EQ(tao::pegtl::analyze<grammar::movement_head>(), 0U);
    EXPECT_EQ(tao::pegtl::analyze<grammar::rest_line_body>(), 0U);
    EXPECT_EQ(tao::pegtl::analyze<grammar::speed_line_body>(), 0U);
}

TEST(Heads, AreFieldsWhenTheWholeHeadIsOne) {
    EXPECT_EQ(kind_of("cue"), LineKind::cue);
    EXPECT_EQ(kind_of("CUE"), LineKind::cue);
    EXPECT_EQ(kind_of("counted  in"), LineKind::counted_in);
    EXPECT_EQ(kind_of("kit"), LineKind::kit);
    EXPECT_EQ(kind_of("cue ball press"), LineKind::movement_line);
}

TEST(Heads, AreOpenersByTheirFirstWords) {
    EXPECT_EQ(kind_of("session 9"), LineKind::open_session);
    EXPECT_EQ(kind_of("warm up"), LineKind::open_warm_up);
    EXPECT_EQ(kind_of("warm–up Easy"), LineKind::open_warm_up);
    EXPECT_EQ(kind_of("super set Arms"), LineKind::open_superset);
    EXPECT_EQ(kind_of("kit Loft"), LineKind::open_named_kit);
    EXPECT_EQ(kind_of("level 2"), LineKind::open_level);
    EXPECT_EQ(kind_of("group B"), LineKind::open_group);
    EXPECT_EQ(kind_of("a head far longer than any keyword of the notation"),
              LineKind::movement_line);
}

// Names of common movements that begin like words of the notation.
TEST(Heads, AreMovementsOtherwise) {
    for (const std::string_view name :
         {"level change", "group run", "step-up", "skip", "rest-pause press", "row", "warmer press",
          "setsuna drill", "press (seated)", "1 1/4 squat", "90/90 hip switch", "приседания",
          "forward lunge", "notebook press", "counted squat", "starts and stops"}) {
        EXPECT_EQ(kind_of(name), LineKind::movement_line) << name;
    }
}

TEST(Heads, ThatAreMistypedOpenersAreNearThem) {
    EXPECT_EQ(parse::near_opener("circut"), "circuit");
    EXPECT_EQ(parse::near_opener("superest"), "superset");
    EXPECT_EQ(parse::near_opener("Legs"), "");
}

parse::ScannedLine scan(std::string_view text) {
    return parse::scan_line(text, {0, static_cast<std::uint32_t>(text.size())});
}

std::string_view cut(std::string_view text, Span span) {
    return text.substr(span.begin, span.size());
}

TEST(Lines, EndTheirHeadAtTheFirstColonThatIsNoTime) {
    const std::string_view text = "  press 1:30 hold :  8 : 9 ";
    const parse::ScannedLine line = scan(text);
    EXPECT_EQ(cut(text, line.head), "press 1:30 hold");
    EXPECT_EQ(cut(text, line.body), "8 : 9");
    EXPECT_TRUE(line.clock_colon.has_value());
}

TEST(Lines, OpenARemarkOnlyBetweenBlanks) {
    const auto remark = [](std::string_view text) { return cut(text, scan(text).remark); };
    EXPECT_EQ(remark("press: 8 # easy"), "# easy");
    EXPECT_EQ(remark("press: 8 #"), "#");
    EXPECT_EQ(remark("#remark at the start"), "#remark at the start");
    EXPECT_EQ(remark("cue: be #1, not C# -> go"), "");
    EXPECT_EQ(remark("cue:# later"), "# later");
    EXPECT_EQ(remark("press: 135#"), "");
}

TEST(Names, AreOneWhenOnlyLettersCaseBlanksOrDashesDiffer) {
    EXPECT_EQ(fold_name("Step–Up  High"), fold_name("step-up high"));
    EXPECT_EQ(fold_name("ΔΎΝΑΜΗ"), fold_name("δύναμη"));
    EXPECT_EQ(fold_name("e\u0301lan"), fold_name("\u00E9lan"));
    EXPECT_EQ(fold_name("farmer\u2019s walk"), fold_name("farmer's walk"));
    EXPECT_NE(fold_name("press"), fold_name("presses"));
}

TEST(Names, GiveFileNamesInPlainLetters) {
    EXPECT_EQ(slug("Río Alto, día 2"), "rio-alto-dia-2");
    EXPECT_EQ(slug("  Slack   water! "), "slack-water");
    EXPECT_EQ(slug("../../etc/passwd"), "etc-passwd");
    EXPECT_EQ(slug(""), "");
    EXPECT_EQ(slug("Δύναμη"), slug("ΔΎΝΑΜΗ"));
    EXPECT_NE(slug("Δύναμη"), slug("Αντοχή"));
    EXPECT_LE(slug(std::string(500, 'a')).size(), 60U);
}

}  // namespace
}  // namespace stave::tests
