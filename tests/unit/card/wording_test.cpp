// How doses, loads and dates read. The words are our own; where a check stands
// on an outside source, the source is named beside it.
#include "compiler/wording/wording.hpp"

#include <gtest/gtest.h>

#include "compiler/timeline/pace.hpp"
#include "tests/unit/card/program_builders.hpp"

namespace stave::wording {
namespace {

using namespace stave::test;
using program::Item;

constexpr Language english = Language::english;

TEST(Wording, NumberAndUnitAreJoinedByANoBreakSpace) {
    EXPECT_EQ(amount(english, exactly(40, Unit::second)), "40\u00A0s");
    EXPECT_EQ(quantity(english, {Ratio(5, 2), Unit::kilogram}), "2.5\u00A0kg");
    EXPECT_EQ(quantity(english, {20, Unit::degree}), "20°");
}

TEST(Wording, RepsAreABareNumber) {
    EXPECT_EQ(amount(english, exactly(8)), "8");
    EXPECT_EQ(amount(english, from_to(8, 10)), "8–10");
    EXPECT_EQ(unit_of(english, exactly(8)), "");
}

TEST(Wording, OneOfAUnitIsSingular) {
    EXPECT_EQ(amount(english, exactly(1, Unit::steps)), "1\u00A0step");
    EXPECT_EQ(amount(english, exactly(2, Unit::steps)), "2\u00A0steps");
    EXPECT_EQ(amount(english, from_to(1, 2, Unit::laps)), "1–2\u00A0laps");
}

TEST(Wording, MaxNamesWhatIsCountedUnlessItIsReps) {
    EXPECT_EQ(amount(english, most()), "max");
    EXPECT_EQ(amount(english, most(Unit::steps)), "max\u00A0steps");
    EXPECT_EQ(amount(english, most(Unit::second)), "max\u00A0time");
    EXPECT_EQ(amount(english, most(Unit::metre)), "max\u00A0distance");
}

TEST(Wording, LongSecondsAndMinutesThatAreNotWholeAreMinutesAndSeconds) {
    EXPECT_EQ(amount(english, exactly(Ratio(3, 2), Unit::minute)), "1\u00A0min\u00A030\u00A0s");
    EXPECT_EQ(amount(english, exactly(3, Unit::minute)), "3\u00A0min");
    EXPECT_EQ(amount(english, exactly(90, Unit::second)), "90\u00A0s");
    EXPECT_EQ(amount(english, exactly(150, Unit::second)), "2\u00A0min\u00A030\u00A0s");
    EXPECT_EQ(quantity(english, {120, Unit::second}), "2\u00A0min");
    EXPECT_EQ(quantity(english, {Ratio(1, 2), Unit::minute}), "0.5\u00A0min");
}

// As the notation writes them: a clock has no unit behind it.
TEST(Wording, MinutesAndSecondsThatStandAloneAreAClock) {
    EXPECT_EQ(number_of(english, exactly(150, Unit::second)), "2:30");
    EXPECT_EQ(unit_of(english, exactly(150, Unit::second)), "");
    EXPECT_EQ(number_of(english, exactly(Ratio(3, 2), Unit::minute)), "1:30");
    EXPECT_EQ(number_of(english, exactly(90, Unit::second)), "90");
    EXPECT_EQ(unit_of(english, exactly(90, Unit::second)), "s");
}

TEST(Wording, AListWithMinutesAndSecondsNamesEveryUnit) {
    EXPECT_EQ(amounts(english, movement("hang", each_of({30, 60, 150}, Unit::second))),
              "30\u00A0s, 60\u00A0s, 2\u00A0min\u00A030\u00A0s");
    EXPECT_EQ(amounts(english, joined("hang", each_of({30}, Unit::second), "plank",
                                      each_of({150}, Unit::second))),
              "30\u00A0s + 2\u00A0min\u00A030\u00A0s");
}

TEST(Wording, EqualSetsAreCounted) {
    EXPECT_EQ(amounts(english, movement("deadlift", times(4, exactly(5)))), "4\u00A0×\u00A05");
    EXPECT_EQ(amounts(english, movement("wall sit", times(3, exactly(40, Unit::second)))),
              "3\u00A0×\u00A040\u00A0s");
    EXPECT_EQ(amounts(english, movement("chin-up", times(1, most()))), "max");
}

TEST(Wording, DifferentSetsAreAListWithTheUnitOnce) {
    EXPECT_EQ(amounts(english, movement("step-up", each_of({12, 10, 8}))), "12-10-8");
    EXPECT_EQ(amounts(english, movement("wall sit", each_of({30, 40, 50}, Unit::second))),
              "30-40-50\u00A0s");
    EXPECT_EQ(amounts(english, movement("press", {exactly(5), exactly(5), most()})), "5-5-max");
    EXPECT_EQ(amounts(english, movement("press", {from_to(8, 10), from_to(6, 8)})), "8–10, 6–8");
}

TEST(Wording, TwoRisingValuesNeverReadAsARange) {
    EXPECT_EQ(amounts(english, movement("push-up", each_of({8, 10}))), "8 then 10");
    EXPECT_EQ(amounts(english, movement("push-up", each_of({10, 8}))), "10-8");
    Item item = movement("press", each_of({5, 5}));
    item.loads = weights({40, 45});
    EXPECT_EQ(loads(english, item), "40 then 45\u00A0kg");
}

TEST(Wording, JoinedMovementsPairTheirAmounts) {
    const Item ladder = joined("inchworm", each_of({5, 4, 3}), "shoulder tap", each_of({1, 2, 3}));
    EXPECT_EQ(name(ladder), "inchworm + shoulder tap");
    EXPECT_EQ(amounts(english, ladder), "5+1, 4+2, 3+3");
    EXPECT_EQ(amounts(english, joined("clean", times(4, exactly(1)), "jerk", times(4, exactly(2)))),
              "4\u00A0×\u00A0(1+2)");
    EXPECT_EQ(amounts(english, joined("swing", each_of({10}), "hang", each_of({20}, Unit::second))),
              "10 + 20\u00A0s");
}

TEST(Wording, SidesSayTheCoachsWord) {
    EXPECT_EQ(sides(english, {}), "");
    EXPECT_EQ(sides(english, each_side()), "each side");
    EXPECT_EQ(sides(english, each_side(program::SideWord::way)), "each way");
    EXPECT_EQ(sides(english, {program::SideRule::alternating, program::SideWord::side}),
              "alternating");
    EXPECT_EQ(sides(english, {program::SideRule::left, program::SideWord::arm}), "left");
    EXPECT_EQ(sides(english, {program::SideRule::right, program::SideWord::arm}), "right");
}

TEST(Wording, LoadsSayImplementsPlaceAndKind) {
    EXPECT_EQ(load(english, {{weight(12)}}), "12\u00A0kg");
    EXPECT_EQ(load(english, {{weight(8, Unit::kilogram, "", 2)}}), "2\u00A0×\u00A08\u00A0kg");
    EXPECT_EQ(
        load(english, {{weight(4, Unit::kilogram, "overhead"), weight(16, Unit::kilogram, "low")}}),
        "4\u00A0kg overhead and 16\u00A0kg low");
    EXPECT_EQ(load(english, {{band("heavy")}}), "heavy band");
    EXPECT_EQ(load(english, {{band("")}}), "band");
    EXPECT_EQ(load(english, {{own_weight(), weight(10)}}), "bodyweight and 10\u00A0kg");
    program::LoadTerm range = weight(8);
    range.high = {10, Unit::kilogram};
    EXPECT_EQ(load(english, {{range}}), "8–10\u00A0kg");
}

TEST(Wording, LoadsOfSetsNameTheUnitOnceWhereOnlyWeightsDiffer) {
    Item item = movement("squat", each_of({5, 5, 5}));
    EXPECT_EQ(loads(english, item), "");
    item.loads = weights({40, 45, 50});
    EXPECT_EQ(loads(english, item), "40-45-50\u00A0kg");
    item.loads = weights({40, 40, 40});
    EXPECT_EQ(loads(english, item), "40\u00A0kg");
    item.loads = {{{weight(40)}}, {{band("light")}}, {{weight(50)}}};
    EXPECT_EQ(loads(english, item), "40\u00A0kg, light band, 50\u00A0kg");
}

// Of several loads each set finds its own plates by its load.
TEST(Wording, PlatesOfSeveralLoadsStandBehindTheLoad) {
    const auto words = [](program::Plates plates) {
        Item item = movement("squat", each_of({5, 5}));
        item.details.emplace_back(std::move(plates));
        return details(english, {}, item);
    };
    const Quantity twenty{20, Unit::kilogram};
    const Quantity five{5, Unit::kilogram};
    EXPECT_EQ(words({{{{70, Unit::kilogram}, {twenty, five}}}}),
              "plates per side 20\u00A0+\u00A05\u00A0kg");
    EXPECT_EQ(words({{{twenty, {}}, {{70, Unit::kilogram}, {twenty, five}}}}),
              "plates per side 20\u00A0kg:\u00A0empty bar · "
              "70\u00A0kg:\u00A020\u00A0+\u00A05");
    // Discs of another unit than the load's say so.
    EXPECT_EQ(words({{{twenty, {}}, {{155, Unit::pound}, {twenty, five}}}}),
              "plates per side 20\u00A0kg:\u00A0empty bar · "
              "155\u00A0lb:\u00A020\u00A0+\u00A05\u00A0kg");
}

TEST(Wording, TempoIsSaidInMoves) {
    EXPECT_EQ(tempo(english, {{{3, false}, {1, false}, {1, true}, {0, false}}}),
              "3\u00A0s down, 1\u00A0s pause, fast up");
    EXPECT_EQ(tempo(english, {{{4, false}, {0, false}, {2, false}, {1, false}}}),
              "4\u00A0s down, 2\u00A0s up, 1\u00A0s pause");
}

TEST(Wording, ArcAndHoldKeepTheirLabels) {
    EXPECT_EQ(arc(english, {{20, Unit::degree}, "", {}, ""}), "arc 20°");
    EXPECT_EQ(arc(english, {{10, Unit::degree}, "in", Quantity{30, Unit::degree}, "out"}),
              "arc 10° in to 30° out");
    EXPECT_EQ(hold(english, {{2, Unit::second}, "on the box"}), "hold 2\u00A0s on the box");
}

TEST(Wording, RestSaysARangeAndWhatFillsIt) {
    EXPECT_EQ(rest(english, pause(60)), "60\u00A0s");
    EXPECT_EQ(rest(english, {{60, Unit::second}, {90, Unit::second}, ""}), "60–90\u00A0s");
    EXPECT_EQ(rest(english, {{60, Unit::second}, {2, Unit::minute}, ""}),
              "60\u00A0s to 2\u00A0min");
    EXPECT_EQ(rest(english, pause(3, Unit::minute, "easy row")), "3\u00A0min, easy row");
}

TEST(Wording, APauseBehindTheWorkStandsBehindTheDetails) {
    Item item = movement("press", times(3, exactly(5)));
    item.rest = pause(60);
    item.rest_after = pause(2, Unit::minute);
    EXPECT_EQ(dose(english, {}, item),
              "3\u00A0×\u00A05, rest 60\u00A0s; after the last set: rest 2\u00A0min");
}

TEST(Wording, ANameThatStandsAloneBeginsWithACapital) {
    EXPECT_EQ(display_name(movement("push-up", each_of({8}))), "Push-up");
    EXPECT_EQ(display_name(movement("élévation", each_of({8}))), "Élévation");
    EXPECT_EQ(display_name(movement("άλμα", each_of({8}))), "Άλμα");
    EXPECT_EQ(display_name(movement("жим", each_of({8}))), "Жим");
    EXPECT_EQ(display_name(movement("90/90 hip switch", each_of({8}))), "90/90 hip switch");
    EXPECT_EQ(display_name(joined("inchworm", each_of({5}), "shoulder tap", each_of({1}))),
              "Inchworm + shoulder tap");
    EXPECT_EQ(name(movement("push-up", each_of({8}))), "push-up");
}

TEST(Wording, DoseIsAmountSidesLoadAndDetailsInThatOrder) {
    Item item = movement("split squat", times(4, exactly(5)));
    item.sides = each_side(program::SideWord::leg);
    item.loads = {{{weight(60)}}};
    item.tempo = program::Tempo{{{3, false}, {0, false}, {1, true}, {0, false}}};
    item.rest = pause(2, Unit::minute);
    item.rest_between_sides = pause(20);
    EXPECT_EQ(dose(english, {}, item),
              "4\u00A0×\u00A05 each leg @ 60\u00A0kg, 3\u00A0s down, fast up, rest 2\u00A0min, "
              "rest 20\u00A0s between sides");
}

TEST(Wording, RoundsAreNotRepeatedInEveryDose) {
    program::Block block;
    block.by_rounds = true;
    block.rounds = 3;
    EXPECT_EQ(dose(english, block, movement("wall sit", times(3, exactly(40, Unit::second)))),
              "40\u00A0s");
    EXPECT_EQ(dose(english, block, movement("step-up", each_of({12, 10, 8}))), "12-10-8");
    block.by_rounds = false;
    EXPECT_EQ(dose(english, block, movement("step-up", times(3, exactly(8)))), "3\u00A0×\u00A08");
}

TEST(Wording, BlockSaysKindTitleAndHowItRuns) {
    program::Block block;
    block.kind = program::BlockKind::circuit;
    block.title = "Deck legs";
    EXPECT_EQ(block_name(english, block), "Circuit Deck legs");
    EXPECT_EQ(format(english, block), "");
    block.by_rounds = true;
    block.rounds = 3;
    block.rest_between_rounds = pause(60);
    block.rest_between_sides = pause(20);
    EXPECT_EQ(format(english, block),
              "3\u00A0rounds, rest 60\u00A0s between rounds, rest 20\u00A0s between sides");
    block.title = "";
    EXPECT_EQ(block_name(english, block), "Circuit");
}

TEST(Wording, KitKeepsCountNameAndSizes) {
    const std::vector<program::KitThing> things{{1, "band heavy", {}, {}},
                                                {2, "kettlebells", {8, 12}, Unit::kilogram}};
    EXPECT_EQ(kit(english, things), "band heavy, 2\u00A0kettlebells 8\u00A012\u00A0kg");
}

TEST(Wording, DurationsAreSecondsThenMinutesThenHours) {
    EXPECT_EQ(duration(english, 40), "40\u00A0s");
    EXPECT_EQ(duration(english, Ratio(199, 5)), "40\u00A0s");
    EXPECT_EQ(duration(english, 90), "1\u00A0min\u00A030\u00A0s");
    EXPECT_EQ(duration(english, 258), "4\u00A0min\u00A018\u00A0s");
    EXPECT_EQ(duration(english, 180), "3\u00A0min");
    EXPECT_EQ(duration(english, 3900), "1\u00A0h\u00A005\u00A0min");
}

TEST(Wording, AssumptionsNameWhatTheyTouchAndTheirSource) {
    using timeline::AssumptionKind;
    EXPECT_EQ(assumption({AssumptionKind::range_counts_upper_end, {"press", "row"}}),
              "A range counts its upper end: press, row.");
    EXPECT_EQ(assumption({AssumptionKind::no_change_time, {}}),
              "Changing stations and setting up take no time.");
    for (const AssumptionKind kind :
         {AssumptionKind::default_rep_seconds, AssumptionKind::default_step_cadence}) {
        EXPECT_NE(assumption({kind, {}}).find("et al."), std::string::npos);
    }
}

// The seconds that are printed are those that were counted.
TEST(Wording, AssumptionsSayTheValuesThatExpansionUses) {
    const auto printed = [](program::Amount amount, const std::string& value,
                            const std::string& name = "plain work") {
        std::string text;
        const Item item = movement(name, {amount});
        const Ratio seconds = timeline::set_seconds({}, item, item.parts.front(), 0,
                                                    [&](timeline::AssumptionKind kind) {
                                                        text = assumption({kind, {}});
                                                    });
        EXPECT_NE(text.find(value), std::string::npos) << text;
        return seconds;
    };
    EXPECT_EQ(printed(exactly(1), "repetition takes 3\u00A0s"), Ratio(3));
    EXPECT_EQ(printed(exactly(100, Unit::steps), "100 a minute"), Ratio(60));
    EXPECT_EQ(printed(exactly(1, Unit::breaths), "breath takes 5\u00A0s"), Ratio(5));
    EXPECT_EQ(printed(exactly(12, Unit::metre), "1.2\u00A0m a second"), Ratio(10));
    EXPECT_EQ(printed(exactly(25, Unit::metre), "2.5\u00A0m a second", "beach run"), Ratio(10));
    EXPECT_EQ(printed(exactly(1, Unit::strokes), "stroke takes 3\u00A0s"), Ratio(3));
    EXPECT_EQ(printed(exactly(1, Unit::jumps), "jump 1\u00A0s"), Ratio(1));
    EXPECT_EQ(printed(exactly(1, Unit::throws), "throw 5\u00A0s"), Ratio(5));
    EXPECT_EQ(printed(exactly(1, Unit::laps), "lap 60\u00A0s"), Ratio(60));
    EXPECT_EQ(printed(exactly(1, Unit::lengths), "length 30\u00A0s"), Ratio(30));
    EXPECT_EQ(printed(exactly(1, Unit::flights), "flight 20\u00A0s"), Ratio(20));
    EXPECT_EQ(printed(most(), "max takes 30\u00A0s"), Ratio(30));
}

// Weekday and date of RFC 5545's own example, section 3.6.1: DTSTART 19970903,
// a Wednesday (date -d 1997-09-03 +%a, GNU coreutils 9.1).
TEST(Wording, DateNamesItsWeekday) {
    using namespace std::chrono;
    EXPECT_EQ(date(english, year{1997} / September / 3), "Wed 3\u00A0September 1997");
    EXPECT_EQ(clock(minutes{18 * 60 + 30}), "18:30");
    EXPECT_EQ(clock(minutes{5}), "00:05");
}

}  // namespace
}  // namespace stave::wording
