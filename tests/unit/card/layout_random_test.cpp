// Whatever a session holds, its card is a clean page or refused.
#include <gtest/gtest.h>

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "backends/card/layout.hpp"
#include "compiler/source/utf8.hpp"
#include "tests/unit/card/page_checks.hpp"
#include "tests/unit/card/sample_sessions.hpp"

namespace stave::card {
namespace {

using stave::test::Sample;

// A small generator with fixed steps, so that every run tries the same sessions
// (constants from memory: the minimal standard generator of Park and Miller).
class Dice {
public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}
    // From 0 to `most`.
    std::uint64_t roll(std::uint64_t most) {
        state_ = state_ * 48271 % 2147483647;
        return state_ % (most + 1);
    }
    bool one_in(std::uint64_t many) { return roll(many - 1) == 0; }

private:
    std::uint64_t state_;
};

std::string random_words(Dice& dice, std::uint64_t most) {
    static const std::vector<std::string> words{"step",     "Ώμος",     "overhead", "жим", "90/90",
                                                "carry",    "Überkopf", "a",        "kg",  "slow",
                                                "kneeling", "ΚΑΘΙΣΜΑ",  "half"};
    std::string text = words[dice.roll(words.size() - 1)];
    for (std::uint64_t more = dice.roll(most); more > 0; --more) {
        text += (dice.one_in(9) ? "-" : " ") + words[dice.roll(words.size() - 1)];
    }
    return text;
}

// A code of any of the sizes that an address may give.
std::string random_address(Dice& dice) {
    std::string address = "https://example.org/";
    for (std::uint64_t more = dice.roll(dice.one_in(5) ? 280 : 60); more > 0; --more)
        address += dice.one_in(9) ? '/' : static_cast<char>('a' + dice.roll(25));
    return address;
}

program::Amount random_amount(Dice& dice) {
    static constexpr std::array units{Unit::reps,  Unit::reps,    Unit::second, Unit::steps,
                                      Unit::metre, Unit::breaths, Unit::minute, Unit::strokes};
    const Unit unit = units[dice.roll(units.size() - 1)];
    const auto low = static_cast<std::int64_t>(1 + dice.roll(dice.one_in(5) ? 9999 : 30));
    if (dice.one_in(8)) return stave::test::most(unit);
    if (dice.one_in(6)) return stave::test::from_to(low, low + 5, unit);
    return stave::test::exactly(dice.one_in(9) ? Ratio(low * 2 + 1, 2) : Ratio(low), unit);
}

program::Load random_load(Dice& dice) {
    program::Load load{
        {stave::test::weight(Ratio(static_cast<std::int64_t>(dice.roll(400)) + 1, 2))}};
    if (dice.one_in(4)) load.terms.front().place = "overhead";
    if (dice.one_in(5)) load.terms.push_back(stave::test::band(random_words(dice, 1)));
    return load;
}

program::Item random_item(Dice& dice, std::size_t sets) {
    program::Item item;
    for (std::uint64_t parts = dice.one_in(5) ? 2 + dice.roll(2) : 1; parts > 0; --parts) {
        program::Part& part = item.parts.emplace_back();
        part.name = random_words(dice, dice.one_in(6) ? 25 : 3);
        part.amounts = stave::test::times(sets, random_amount(dice));
        if (dice.one_in(2)) {
            for (program::Amount& amount : part.amounts)
                amount = random_amount(dice);
        }
    }
    item.sides.rule = static_cast<program::SideRule>(dice.roll(4));
    if (dice.one_in(2)) item.loads.push_back(random_load(dice));
    if (dice.one_in(4)) {
        item.loads.clear();
        for (std::size_t set = 0; set < sets; ++set)
            item.loads.push_back(random_load(dice));
    }
    if (dice.one_in(4)) item.rest = stave::test::pause(90, Unit::second, random_words(dice, 4));
    if (dice.one_in(3)) item.cues = {random_words(dice, 20), random_words(dice, 3)};
    if (dice.one_in(4)) item.faults = {{random_words(dice, 8), random_words(dice, 8)}};
    if (dice.one_in(6)) item.notes = {random_words(dice, 60)};
    if (dice.one_in(6)) item.stops = {random_words(dice, 5)};
    if (dice.one_in(5)) {
        program::Substitute other;
        other.item = stave::test::movement(random_words(dice, 5), {random_amount(dice)});
        other.condition = random_words(dice, 2);
        item.substitutes.push_back(other);
    }
    return item;
}

Sample random_session(std::uint64_t seed) {
    Dice dice(seed);
    std::vector<program::Block> blocks;
    std::vector<Ratio> minutes;
    for (std::uint64_t count = 1 + dice.roll(dice.one_in(8) ? 25 : 4); count > 0; --count) {
        program::Block block;
        block.kind = static_cast<program::BlockKind>(dice.roll(4));
        if (dice.one_in(2)) block.title = random_words(dice, dice.one_in(5) ? 30 : 3);
        block.by_rounds = dice.one_in(2);
        if (block.by_rounds) {
            block.rounds = static_cast<std::int64_t>(1 + dice.roll(dice.one_in(6) ? 99 : 7));
        }
        if (dice.one_in(3)) block.rest_between_rounds = stave::test::pause(60);
        if (dice.one_in(6)) block.cues = {random_words(dice, 30)};
        for (std::uint64_t items = dice.roll(dice.one_in(9) ? 59 : 4); items > 0; --items) {
            const std::size_t sets = block.by_rounds ? static_cast<std::size_t>(block.rounds)
                                                     : 1 + dice.roll(dice.one_in(5) ? 30 : 5);
            block.items.push_back(random_item(dice, sets));
        }
        blocks.push_back(std::move(block));
        minutes.emplace_back(static_cast<std::int64_t>(dice.roll(40)), 3);
    }
    Sample sample{"seed " + std::to_string(seed),
                  stave::test::session(dice.one_in(2) ? "7" : "", random_words(dice, 12), "made",
                                       std::move(blocks)),
                  stave::test::of_minutes(minutes)};
    if (dice.one_in(2)) sample.session.when = stave::test::evening();
    if (dice.one_in(2)) sample.session.place = random_words(dice, 14);
    if (dice.one_in(3)) sample.session.stops = {random_words(dice, 14), random_words(dice, 4)};
    if (dice.one_in(3)) sample.session.notes = {random_words(dice, 30)};
    if (dice.one_in(3)) sample.session.series = random_words(dice, 8);
    if (dice.one_in(3)) sample.session.coach = random_words(dice, 6);
    if (dice.one_in(3)) sample.session.link = random_address(dice);
    if (dice.one_in(3)) sample.session.pages = 2;
    for (program::Block& block : sample.session.blocks)
        if (dice.one_in(6)) block.columns = static_cast<std::int64_t>(1 + dice.roll(1));
    return sample;
}

// Up to so many letters.
std::string random_name(Dice& dice, std::size_t longest) {
    std::string name = random_words(dice, 0);
    for (std::uint64_t more = dice.roll(12); more > 0; --more) {
        const std::string longer = name + " " + random_words(dice, 0);
        if (column_count(longer) > longest) break;
        name = longer;
    }
    return name;
}

// The lines of a session's head, each there or not.
void add_head(Dice& dice, program::Session& session) {
    constexpr std::size_t longest_place = 120;
    if (dice.one_in(2)) session.when = stave::test::evening();
    if (dice.one_in(2)) session.place = random_name(dice, longest_place);
    if (dice.one_in(2)) session.series = random_name(dice, 60);
    if (dice.one_in(2)) session.coach = random_name(dice, 40);
    if (dice.one_in(2)) session.link = random_address(dice);
    if (dice.one_in(3)) session.audience = {random_name(dice, 20), random_name(dice, 20)};
    if (dice.one_in(3)) session.stops = {random_name(dice, 60)};
    session.pages = static_cast<std::int64_t>(1 + dice.roll(1));
}

// A session as coaches write them, from two lines to more than two pages hold.
Sample likely_session(std::uint64_t seed) {
    Dice dice(seed);
    std::vector<program::Block> blocks;
    std::vector<Ratio> minutes;
    for (std::uint64_t count = 1 + dice.roll(dice.one_in(4) ? 11 : 4); count > 0; --count) {
        program::Block& block = blocks.emplace_back();
        block.kind = static_cast<program::BlockKind>(dice.roll(5));
        if (dice.one_in(2)) block.title = random_name(dice, 40);
        block.columns = static_cast<std::int64_t>(dice.roll(2));
        block.by_rounds = dice.one_in(2);
        if (block.by_rounds) block.rounds = static_cast<std::int64_t>(1 + dice.roll(9));
        if (dice.one_in(3)) block.rest_between_rounds = stave::test::pause(60);
        for (std::uint64_t items = 1 + dice.roll(dice.one_in(5) ? 13 : 4); items > 0; --items) {
            const std::uint64_t sets =
                block.by_rounds ? static_cast<std::uint64_t>(block.rounds) : 1 + dice.roll(5);
            program::Item& item = block.items.emplace_back(random_item(dice, sets));
            for (program::Part& part : item.parts)
                part.name = random_name(dice, 60);
        }
        minutes.emplace_back(static_cast<std::int64_t>(dice.roll(40)), 3);
    }
    Sample sample{"seed " + std::to_string(seed),
                  stave::test::session("7", random_name(dice, 60), "made", std::move(blocks)),
                  stave::test::of_minutes(minutes)};
    add_head(dice, sample.session);
    return sample;
}

// All languages take turns.
CardText text_of(std::uint64_t seed, Paper paper) {
    CardText text{.revision = "7f3ac2", .paper = paper};
    text.language = wording::languages[seed % wording::languages.size()];
    return text;
}

// On how many pages it stands; 0 where it is refused.
std::size_t pages_of(const Sample& sample, const CardText& text, Fonts& fonts) {
    DiagnosticSink sink;
    const auto pages = lay_out({}, sample.session, sample.timeline, text, fonts, sink);
    EXPECT_NE(pages.has_value(), sink.has_errors()) << sample.name;
    if (!pages) return 0;
    EXPECT_LE(pages->size(), static_cast<std::size_t>(sample.session.pages)) << sample.name;
    for (const Page& page : *pages) {
        for (const std::string& fault : test::faults_of(page, fonts))
            ADD_FAILURE() << sample.name << ": " << fault;
    }
    return pages->size();
}

class EveryPaper : public testing::TestWithParam<Paper> {};

TEST_P(EveryPaper, TakesAnySessionAsACleanPageOrRefusesIt) {
    Fonts fonts;
    const std::uint64_t sessions = GetParam() == Paper::a4 ? 150 : 60;
    std::size_t cards = 0;
    for (std::uint64_t seed = 1; seed <= sessions; ++seed) {
        const CardText text = text_of(seed, GetParam());
        if (pages_of(random_session(seed * 7919), text, fonts) > 0) ++cards;
    }
    // A pocket holds the shortest of them alone.
    EXPECT_GT(cards, GetParam() == Paper::a6 ? sessions / 10 : sessions / 5);
}

TEST_P(EveryPaper, TakesLikelySessionsOnAsManyPagesAsTheyMayTake) {
    Fonts fonts;
    constexpr std::uint64_t sessions = 40;
    std::size_t cards = 0;
    std::size_t long_cards = 0;
    for (std::uint64_t seed = 1; seed <= sessions; ++seed) {
        const std::size_t pages =
            pages_of(likely_session(seed * 6007), text_of(seed, GetParam()), fonts);
        if (pages > 0) ++cards;
        if (pages > 1) ++long_cards;
    }
    EXPECT_GT(cards, GetParam() == Paper::a6 ? sessions / 10 : sessions / 4);
    EXPECT_GT(long_cards, GetParam() == Paper::a6 ? 0 : sessions / 20);
}

INSTANTIATE_TEST_SUITE_P(Layout, EveryPaper, testing::ValuesIn(papers),
                         [](const auto& paper) { return std::string(name_of(paper.param)); });

}  // namespace
}  // namespace stave::card
