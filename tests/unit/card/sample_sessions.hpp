// Sessions of the Skerry Point crew for the card's tests, from two lines to more
// than a page. Their timelines give each block the minutes named here.
#pragma once

#include <string>
#include <vector>

#include "tests/unit/card/program_builders.hpp"

#include "compiler/program/program.hpp"
#include "compiler/timeline/timeline.hpp"

namespace stave::test {

struct Sample {
    std::string name;
    program::Session session;
    timeline::Timeline timeline;
};

// Blocks one after another, of these lengths in minutes.
inline timeline::Timeline of_minutes(const std::vector<Ratio>& minutes) {
    timeline::Timeline timeline;
    for (const Ratio length : minutes) {
        timeline.blocks.push_back({timeline.total_seconds, length * Ratio(60), 1});
        timeline.total_seconds += length * Ratio(60);
    }
    return timeline;
}

inline program::Block block(program::BlockKind kind, std::string title,
                            std::vector<program::Item> items) {
    program::Block result;
    result.kind = kind;
    result.title = std::move(title);
    result.items = std::move(items);
    return result;
}

inline program::Block rounds(program::Block block, std::int64_t count) {
    block.rounds = count;
    block.by_rounds = true;
    return block;
}

inline program::Session session(std::string number, std::string title, std::string slug,
                                std::vector<program::Block> blocks) {
    program::Session result;
    result.number = std::move(number);
    result.title = std::move(title);
    result.slug = std::move(slug);
    result.blocks = std::move(blocks);
    char letter = 'A';
    for (program::Block& block : result.blocks)
        block.letter = letter++;
    return result;
}

// The same movement with one change after another.
inline program::Item with_cue(program::Item item, std::string cue) {
    item.cues.push_back(std::move(cue));
    return item;
}
inline program::Item on_sides(program::Item item, program::Sides sides) {
    item.sides = sides;
    return item;
}
inline program::Item holding(program::Item item, std::vector<program::Load> loads) {
    item.loads = std::move(loads);
    return item;
}
inline program::Item with_fault(program::Item item, std::string what, std::string mend) {
    item.faults.push_back({std::move(what), std::move(mend)});
    return item;
}

inline program::When evening() {
    using namespace std::chrono;
    program::When when;
    when.date = year{2026} / December / 3;
    when.clock = minutes{18 * 60 + 30};
    when.time_limit = Quantity{55, Unit::minute};
    return when;
}

// Warm-up with a paired ladder, heavy sets, a circuit with sides and changing
// reps, a cool-down.
inline Sample slack_water() {
    using program::BlockKind;
    program::Item inchworm =
        joined("inchworm", each_of({5, 4, 3, 2, 1}), "shoulder tap", each_of({1, 2, 3, 4, 5}));
    inchworm.cues = {"long hands, quiet hips"};
    program::Item row = holding(movement("sandbag row", times(3, exactly(15))), weights({20}));
    program::Substitute band_row{movement("band row", times(3, exactly(18))), "no sandbag", ""};
    band_row.item.loads = {{{band("heavy")}}};
    row.substitutes = {band_row};
    program::Item carry = on_sides(
        holding(movement("suitcase carry", times(3, exactly(60, Unit::steps))), weights({16})),
        each_side());
    carry.counts = {"steps forward, not back"};
    program::Item deadlift = holding(movement("deadlift", times(4, exactly(5))), weights({90}));
    deadlift.tempo = program::Tempo{{{3, false}, {1, false}, {1, true}, {0, false}}};
    deadlift.cues = {"push the floor away", "bar stays on the legs"};
    program::Block haul = block(BlockKind::sets, "Haul",
                                {deadlift,
                                 holding(movement("bench press", each_of({5, 5, 3, 3, 1})),
                                         weights({50, Ratio(105, 2), 55, Ratio(115, 2), 60})),
                                 movement("chin-up", times(3, most()))});
    haul.rest_between_sets = pause(2, Unit::minute);
    program::Block legs =
        rounds(block(BlockKind::circuit, "Deck legs",
                     {with_fault(on_sides(holding(movement("step-up", each_of({12, 10, 8})),
                                                  {{{weight(8, Unit::kilogram, "", 2)}},
                                                   {{weight(8, Unit::kilogram, "", 2)}},
                                                   {{weight(8, Unit::kilogram, "", 2)}}}),
                                          each_side(program::SideWord::leg)),
                                 "pushing off the back foot", "lift its toes first"),
                      row, movement("wall sit", times(3, exactly(40, Unit::second))), carry}),
               3);
    legs.rest_between_rounds = pause(60);
    program::Item hips = on_sides(movement("90/90 hip switch", each_of({6})), each_side());
    hips.hold = program::Hold{{2, Unit::second}, ""};
    Sample sample{"slack-water",
                  session("9", "Slack water", "slack-water",
                          {block(BlockKind::warm_up, "",
                                 {movement("easy skip", each_of({2}, Unit::minute)),
                                  on_sides(movement("hip circle", each_of({8})),
                                           each_side(program::SideWord::way)),
                                  inchworm}),
                           haul, legs,
                           block(BlockKind::cool_down, "",
                                 {hips, movement("box breathing", each_of({10}, Unit::breaths))})}),
                  of_minutes({6, 24, Ratio(35, 2), 4})};
    sample.session.when = evening();
    sample.session.place = "Boathouse loft";
    sample.session.kit = {{1, "band heavy", {}, {}},
                          {1, "sandbag", {20}, Unit::kilogram},
                          {2, "kettlebells", {8}, Unit::kilogram},
                          {1, "kettlebell", {16}, Unit::kilogram},
                          {1, "box", {40}, Unit::centimetre}};
    sample.session.stops = {"sharp pain anywhere"};
    return sample;
}

// Straight sets with loads by set and long details.
inline Sample heavy_weather() {
    using program::BlockKind;
    program::Item squat = with_cue(
        holding(movement("front squat", each_of({8, 6, 5, 3, 2})), weights({40, 50, 55, 60, 65})),
        "elbows high, sit between the heels");
    squat.rest = pause(3, Unit::minute, "easy row");
    program::Item press =
        holding(movement("push press", {from_to(6, 8), from_to(6, 8), from_to(4, 6)}),
                weights({35, 35, 40}));
    press.notes = {"Stop two reps before the bar slows."};
    program::Item pull = holding(movement("one-arm row", times(4, exactly(8))), weights({22}));
    pull.sides = each_side(program::SideWord::arm);
    pull.tempo = program::Tempo{{{2, false}, {0, false}, {1, false}, {1, false}}};
    pull.stops = {"pain in the elbow"};
    const program::Item calf = movement("calf raise", times(10, exactly(12)));
    const program::Item split =
        on_sides(movement("split squat hold", times(8, exactly(20, Unit::second))),
                 each_side(program::SideWord::leg));
    program::Block main = block(BlockKind::sets, "", {squat, press, pull, calf, split});
    main.rest_between_sets = program::Rest{{90, Unit::second}, {120, Unit::second}, ""};
    main.cues = {"every first rep like the last"};
    Sample sample{
        "heavy-weather",
        session("12", "Heavy weather", "heavy-weather",
                {block(BlockKind::warm_up, "Wake the hips",
                       {movement("row easy", each_of({3}, Unit::minute)),
                        movement("cat and camel", each_of({6})),
                        on_sides(movement("hip switch", each_of({5})), each_side()),
                        holding(movement("front squat", times(2, exactly(5))), weights({20}))}),
                 main}),
        of_minutes({8, 47})};
    sample.session.when = evening();
    sample.session.when->time_limit.reset();
    sample.session.notes = {"Leave two good reps in the tank on every set."};
    return sample;
}

// A superset of ladders, one of them joined, and a circuit of one round.
inline Sample paired_ladder() {
    using program::BlockKind;
    program::Item pair =
        with_cue(joined("clean", each_of({5, 4, 3, 2, 1}), "front squat", each_of({1, 2, 3, 4, 5})),
                 "one breath between the two");
    pair.loads = weights({40});
    program::Block ladder =
        rounds(block(BlockKind::superset, "Up and down",
                     {pair, with_cue(movement("strict chin-up", each_of({2, 3, 4, 5, 6})),
                                     "full hang, chest to the bar")}),
               5);
    ladder.rest_between_rounds = pause(90);
    program::Item mixed = joined("kettlebell swing", times(4, exactly(10)), "plank",
                                 times(4, exactly(20, Unit::second)));
    mixed.loads = weights({24});
    program::Block finish =
        rounds(block(BlockKind::circuit, "Finisher",
                     {mixed, movement("row", times(4, exactly(200, Unit::metre))),
                      on_sides(movement("halo", times(4, exactly(8))),
                               {program::SideRule::alternating, program::SideWord::way}),
                      on_sides(movement("side plank", times(4, exactly(30, Unit::second))),
                               {program::SideRule::left, program::SideWord::side})}),
               4);
    finish.rest_between_movements = pause(15);
    return {"paired-ladder", session("B", "Up the mast", "up-the-mast", {ladder, finish}),
            of_minutes({16, 14})};
}

// Mobility: lists only, with arcs, holds and breaths.
inline Sample low_tide() {
    using program::BlockKind;
    program::Item rotation =
        on_sides(movement("shoulder rotation", each_of({10})), each_side(program::SideWord::arm));
    rotation.arc = program::Arc{{10, Unit::degree}, "in", Quantity{30, Unit::degree}, "out"};
    rotation.loads = {{{band("light")}}};
    program::Item ankle = on_sides(movement("knee to wall", each_of({8})), each_side());
    ankle.hold = program::Hold{{3, Unit::second}, "at the wall"};
    program::Block first =
        rounds(block(BlockKind::warm_up, "Shoulders and hips",
                     {rotation, with_cue(ankle, "heel stays down"),
                      on_sides(movement("hip switch", each_of({6, 6})), each_side()),
                      movement("dead bug", each_of({8, 8}))}),
               2);
    first.items[0].parts[0].amounts = times(2, exactly(10));
    first.items[1].parts[0].amounts = times(2, exactly(8));
    return {"low-tide",
            session("", "Low tide", "low-tide",
                    {first, block(BlockKind::cool_down, "",
                                  {with_cue(movement("couch stretch", each_of({60}, Unit::second)),
                                            "ribs down, breathe out long"),
                                   movement("box breathing", each_of({10}, Unit::breaths)),
                                   movement("legs up the wall", each_of({3}, Unit::minute))})}),
            of_minutes({11, 6})};
}

// What fits on two lines of source.
inline Sample pocket() {
    return {
        "pocket",
        session("", "", "session",
                {block(program::BlockKind::sets, "", {movement("push-up", times(3, exactly(8)))})}),
        of_minutes({2})};
}

// Greek, Cyrillic, accents, and names of sixty characters and more.
inline Sample many_tongues() {
    using program::BlockKind;
    const program::Item greek =
        with_cue(holding(movement("Βαθύ κάθισμα με παύση στο κάτω σημείο και αργή επιστροφή",
                                  each_of({8, 6, 4})),
                         weights({40, 45, 50})),
                 "Τα γόνατα προς τα έξω");
    const program::Item cyrillic = on_sides(
        holding(movement("Выпад назад с гирей над головой и шагом на платформу высотой "
                         "сорок сантиметров и обратно",
                         times(3, exactly(8))),
                {{{weight(4, Unit::kilogram, "overhead"), weight(16, Unit::kilogram, "low")}}}),
        each_side(program::SideWord::leg));
    const program::Item unbroken =
        movement(std::string(140, 'w'), times(3, exactly(30, Unit::second)));
    const program::Block block_one =
        rounds(block(BlockKind::circuit, "Søndagsrunde for hele mannskapet på Skerry Point",
                     {greek, cyrillic, unbroken,
                      with_fault(movement("Ťažký mŕtvy ťah s krátkou prestávkou", times(3, most())),
                                 "chrbát sa guľatí", "zľahči a zdvihni hrudník")}),
               3);
    Sample sample{"many-tongues",
                  session("Ωμέγα", "Über den Fjord, dann zurück mit der Flut und ohne Eile",
                          "ueber-den-fjord", {block_one}),
                  of_minutes({33})};
    sample.session.when = evening();
    sample.session.place = "Große Halle am alten Hafen, Eingang über die Slipanlage";
    return sample;
}

// Six full blocks: smaller type, cues dropped.
inline Sample crowded() {
    using program::BlockKind;
    std::vector<program::Block> blocks;
    for (int number = 0; number < 6; ++number) {
        std::vector<program::Item> items;
        for (const char* name : {"goblet squat", "ring row", "suitcase carry"}) {
            items.push_back(with_cue(
                on_sides(holding(movement(name, each_of({12, 10, 8})), weights({16})), each_side()),
                "tall, quiet, and no hurry at the top of it"));
        }
        items[1].faults = {{"the ribs flare", "breathe out first"}};
        program::Block one =
            rounds(block(BlockKind::circuit, "Watch " + std::to_string(number + 1), items), 3);
        one.rest_between_rounds = pause(60);
        blocks.push_back(one);
    }
    return {"crowded", session("30", "All hands", "all-hands", blocks),
            of_minutes({9, 9, 9, 9, 9, 9})};
}

// Far more than a page.
inline Sample overflowing() {
    Sample sample = crowded();
    sample.name = "overflowing";
    program::Block& deck = sample.session.blocks[2];
    deck.title = "Deck legs";
    deck.span = {300, 320};
    for (int more = 0; more < 56; ++more)
        deck.items.push_back(deck.items[0]);
    return sample;
}

// Every shape of amounts in one block: many sets, ladders, lists, one hundred.
inline Sample shapes() {
    using program::BlockKind;
    std::vector<program::Amount> ladder;
    for (int step = 1; step <= 12; ++step)
        ladder.push_back(exactly(step));
    std::vector<program::Amount> long_ladder;
    for (int step = 1; step <= 100; ++step)
        long_ladder.push_back(exactly(step));
    const program::Item waves = holding(movement("snatch pull", each_of({3, 2, 1, 3, 2, 1, 2})),
                                        weights({50, 55, 60, 50, 55, 60, 65}));
    return {"shapes",
            session("41", "Shapes", "shapes",
                    {block(BlockKind::sets, "Many",
                           {movement("ladder", ladder), movement("long ladder", long_ladder), waves,
                            on_sides(movement("get-up", times(10, exactly(1))), each_side()),
                            movement("skip", times(100, exactly(20, Unit::jumps)))}),
                     rounds(block(BlockKind::circuit, "Ten of each",
                                  {movement("burpee", times(10, exactly(5))),
                                   movement("sprint", times(10, exactly(40, Unit::metre)))}),
                            10)}),
            of_minutes({30, 20})};
}

inline std::vector<Sample> all_samples() {
    return {slack_water(), heavy_weather(), paired_ladder(), low_tide(),
            pocket(),      many_tongues(),  crowded(),       shapes()};
}

}  // namespace stave::test
