// How every construct reads on the card and in the calendar, from text to words. The
// words are our own.

#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "compiler/wording/wording.hpp"
#include "tests/published/analysed.hpp"

namespace stave {
namespace {

constexpr wording::Language english = wording::Language::english;

using stave::testing::analysed;

// Blanks that do not break are for paper.
std::string plain(std::string text) {
    constexpr std::string_view no_break = "\u00A0";
    for (std::size_t at = text.find(no_break); at != std::string::npos; at = text.find(no_break)) {
        text.replace(at, no_break.size(), " ");
    }
    return text;
}

program::Block only_block(const std::string& text) {
    return analysed("session: A\n" + text + "\n").program.sessions.at(0).blocks.at(0);
}

// The dose of "squat: DOSE" in straight sets.
std::string dose(const std::string& dose) {
    const program::Block block = only_block("sets: rest 60 s\nsquat: " + dose);
    return plain(wording::dose(english, block, block.items.at(0)));
}

std::string dose_in(const std::string& format, const std::string& dose) {
    const program::Block block = only_block("circuit: " + format + "\nsquat: " + dose);
    return plain(wording::dose(english, block, block.items.at(0)));
}

std::string format(const std::string& format, const std::string& kind = "circuit") {
    const bool two = format.contains("movement");
    return plain(wording::format(english, only_block(kind + ": " + format + "\nsquat: 5 each leg" +
                                                     (two ? "\npush-up: 5" : ""))));
}

TEST(Words, say_amounts_beyond_a_number) {
    EXPECT_EQ(dose("3 x 5 or more"), "3 × 5 or more");
    EXPECT_EQ(dose("20 steps or more"), "20 steps or more");
    EXPECT_EQ(dose("30 total"), "30 in all");
    EXPECT_EQ(dose("40 m total"), "40 m in all");
    EXPECT_EQ(dose("best of 3"), "best of 3");
    EXPECT_EQ(dose("build to 3 @ RPE 8"), "build to 3 @ RPE 8");
    EXPECT_EQ(dose("build to 2 to 3"), "build to 2–3");
    EXPECT_EQ(dose("max m in 12 min"), "max distance, in 12 min");
    EXPECT_EQ(dose("15 kcal"), "15 kcal");
    EXPECT_EQ(dose("3 x 400 m in 88 s"), "3 × 400 m, in 88 s");
    EXPECT_EQ(dose("7:28.4"), "7 min 28.4 s");
}

TEST(Words, say_sets_that_follow_one_another) {
    EXPECT_EQ(dose("3 x 5 then 1 x max"), "5-5-5-max");
    EXPECT_EQ(dose("3 x 5 then 1 x 5 or more"), "5, 5, 5, 5 or more");
    EXPECT_EQ(dose("2 waves of 5-3 @ 75 then 80 %"), "5-3-5-3 @ 75-80-75-80 % of max");
    EXPECT_EQ(dose("2 waves of 5-3 @ 75 then 80 %, each wave 2.5 % up"),
              "5-3-5-3 @ 75-80-77.5-82.5 % of max");
    EXPECT_EQ(dose("8 then 10"), "8 then 10");
}

TEST(Words, put_the_pieces_of_a_set_in_brackets) {
    EXPECT_EQ(dose("(2 + 2 + 2, rest 15 s)"), "2+2+2, 15 s rest between the parts");
    EXPECT_EQ(dose("5 x (3 x 2, rest 15 s)"), "5 × (2+2+2), 15 s rest between the parts");
    EXPECT_EQ(dose("(20 + 10 s, rest 5 s)"), "20+10 s, 5 s rest between the parts");
    EXPECT_EQ(dose_in("3 rounds", "ladder 1..3..1"), "1-2-3-2-1, all in one set");
    EXPECT_EQ(dose_in("3 rounds", "(2 + 2, rest 15 s)"), "2+2, 15 s rest between the parts");
}

TEST(Words, climb_an_open_ladder) {
    EXPECT_EQ(dose_in("as many rounds as possible in 6 min", "2 up by 2"),
              "2, then 2 more each round");
    EXPECT_EQ(dose_in("3 rounds", "2 up by 2"), "2-4-6");
    EXPECT_EQ(dose_in("2 rounds", "2 up by 2"), "2 then 4");
}

TEST(Words, say_sides_and_who_comes_first) {
    EXPECT_EQ(dose("8 each leg, right first"), "8 each leg, right first");
    EXPECT_EQ(dose("8 alternating, left first"), "8 alternating, left first");
    EXPECT_EQ(dose("20 m there and back"), "20 m there and back");
    EXPECT_EQ(dose("20 m, then swapped"), "20 m, then hands swapped");
    EXPECT_EQ(dose("60 m, swap hands every 20 m"), "60 m, swap hands every 20 m");
}

TEST(Words, say_loads_that_hang_on_something) {
    EXPECT_EQ(dose("5 @ 75 %"), "5 @ 75 % of max");
    EXPECT_EQ(dose("5 @ 70 to 75 %"), "5 @ 70–75 % of max");
    EXPECT_EQ(dose("5-3 @ 60-55 % of deadlift"), "5-3 @ 60-55 % of deadlift");
    EXPECT_EQ(dose("5 @ 1.5 x bodyweight"), "5 @ 1.5 × bodyweight");
    EXPECT_EQ(dose("5-5 @ 1.5 to 2 x bodyweight"), "2 × 5 @ 1.5–2 × bodyweight");
    EXPECT_EQ(dose("5-5-5 @ 110-120-150 % of bodyweight"), "3 × 5 @ 1.1-1.2-1.5 × bodyweight");
    EXPECT_EQ(dose("5 @ 20 % of bodyweight"), "5 @ 20 % of bodyweight");
    EXPECT_EQ(dose("30 m @ 2 x 25 % of bodyweight"), "30 m @ 2 × 25 % of bodyweight");
    EXPECT_EQ(dose("5 @ 2 x 30 %"), "5 @ 2 × 30 % of max");
    EXPECT_EQ(dose("5-5 @ 2 x 25-20 % of bodyweight"), "2 × 5 @ 2 × 25-20 % of bodyweight");
    EXPECT_EQ(dose("5 @ 85 % of top set"), "5 @ 85 % of top set");
    EXPECT_EQ(dose("5 @ 8 rep max"), "5 @ 8 rep max");
    EXPECT_EQ(dose("5 @ 90 % of 8 rep max"), "5 @ 90 % of 8 rep max");
    EXPECT_EQ(dose("5 @ bodyweight plus 10 kg"), "5 @ bodyweight plus 10 kg");
    EXPECT_EQ(dose("8-6 @ bodyweight minus 30-20 kg"), "8-6 @ bodyweight minus 30-20 kg");
    EXPECT_EQ(dose("5 @ last time plus 2.5 kg"), "5 @ last time plus 2.5 kg");
    EXPECT_EQ(dose("5 @ empty bar"), "5 @ empty bar");
    EXPECT_EQ(dose("5 @ band heavy helping"), "5 @ heavy band helping");
    EXPECT_EQ(dose("5 @ 8 kg left and 12 kg right"), "5 @ 8 kg left and 12 kg right");
    EXPECT_EQ(dose("5 @ 40-50-60 kg"), "3 × 5 @ 40-50-60 kg");
    EXPECT_EQ(dose("8-8 @ 2 x 10 then 2 x 12 kg"), "2 × 8 @ 2 × 10 then 12 kg");
}

TEST(Words, say_efforts_and_paces) {
    EXPECT_EQ(dose("5 @ RPE 8"), "5 @ RPE 8");
    EXPECT_EQ(dose("5-5-3 @ RPE 7-8-9"), "5-5-3 @ RPE 7-8-9");
    EXPECT_EQ(dose("5-5 @ RPE 7 then 8"), "2 × 5 @ RPE 7 then 8");
    EXPECT_EQ(dose("5 @ 80 kg, RPE 7 to 8"), "5 @ 80 kg, RPE 7–8");
    EXPECT_EQ(dose("max, 2 in reserve"), "max, 2 in reserve");
    EXPECT_EQ(dose("5 @ RIR 2"), "5 @ 2 in reserve");
    EXPECT_EQ(dose("30 m @ 70 % effort"), "30 m @ 70 % effort");
    EXPECT_EQ(dose("20 min @ zone 2"), "20 min @ zone 2");
    EXPECT_EQ(dose("20 min @ heart rate 125 to 140"), "20 min @ heart rate 125–140");
    EXPECT_EQ(dose("500 m @ 2:10 per 500 m"), "500 m @ 2:10 per 500 m");
    EXPECT_EQ(dose("1 km @ 5:00 to 5:10 per km"), "1 km @ 5:00–5:10 per km");
    EXPECT_EQ(dose("500 m @ 2000 m pace plus 6 s"), "500 m @ 2000 m pace plus 6 s");
    EXPECT_EQ(dose("10 min @ 12 km per h"), "10 min @ 12 km per h");
    EXPECT_EQ(dose("10 min @ 20 strokes per min"), "10 min @ 20 strokes per min");
    EXPECT_EQ(dose("5 min @ 200 W"), "5 min @ 200 W");
}

TEST(Words, say_how_each_repetition_goes) {
    EXPECT_EQ(dose("3, lower 5 s only"), "3, lower only, 5 s");
    EXPECT_EQ(dose("6, breath in 4 s, out 6 s"), "6, breathe in 4 s, out 6 s");
    EXPECT_EQ(dose("8, pause 1 s below the knee"), "8, pause 1 s below the knee");
    EXPECT_EQ(dose("40 s, hold at 60 deg"), "40 s, hold at 60°");
    EXPECT_EQ(dose("8, from 20 cm"), "8, from 20 cm");
    EXPECT_EQ(dose("8, over 30 cm"), "8, over 30 cm");
    EXPECT_EQ(dose("5 min, incline 4 %"), "5 min, incline 4 %");
    EXPECT_EQ(dose("5 min, incline 3 deg"), "5 min, incline 3°");
    EXPECT_EQ(dose("5 min, incline 4 to 6 %"), "5 min, incline 4–6 %");
    EXPECT_EQ(dose("3 x 5 min, incline 4-6-8 %"), "3 × 5 min, incline 4-6-8 %");
    EXPECT_EQ(dose("12-10 @ 40 kg, load rises"), "12-10 @ 40 kg, heavier as the sets get shorter");
    EXPECT_EQ(dose("8-10-12 m, load falls"), "8-10-12 m, lighter as the sets get longer");
}

TEST(Words, say_rests) {
    EXPECT_EQ(dose("5, rest as needed"), "5, rest as needed");
    EXPECT_EQ(dose("5, rest as needed, about 60 s"), "5, rest as needed, about 60 s");
    EXPECT_EQ(dose("5, rest as long as the work"), "5, rest as long as the work");
    EXPECT_EQ(dose("100 m, rest walk back"), "100 m, rest: walk back");
    EXPECT_EQ(dose("400 m, rest 200 m jog"), "400 m, rest 200 m jog");
    EXPECT_EQ(dose("5 each leg, 20 s between sides"), "5 each leg, rest 20 s between sides");
    EXPECT_EQ(dose("5, rest 3 min easy row"), "5, rest 3 min, easy row");
}

// The words of the last movement of a block.
std::string last_dose(const std::string& text) {
    const program::Block block = only_block(text);
    return plain(wording::dose(english, block, block.items.back()));
}

TEST(Words, leave_out_a_rest_that_the_blocks_own_replaces) {
    const std::string two = "push-up: 5, rest 20 s\nsquat: 5, rest 30 s\n";
    EXPECT_EQ(last_dose("circuit: 3 rounds, rest 60 s\n" + two), "5");
    EXPECT_EQ(last_dose("circuit: 3 rounds\n" + two), "5, rest 30 s");
    const program::Block block = only_block("circuit: 3 rounds, rest 60 s\n" + two);
    EXPECT_EQ(plain(wording::dose(english, block, block.items.front())), "5, rest 20 s");
}

TEST(Words, set_apart_what_comes_behind_a_movement) {
    const auto first_dose = [](const std::string& text) {
        const program::Block block = only_block(text + "push-up: 5");
        return plain(wording::dose(english, block, block.items.front()));
    };
    EXPECT_EQ(first_dose("sets: rest 60 s\nsquat: 3 x 5, tempo 3-1-1-0\nrest: 4 min easy walk\n"),
              "3 × 5, 3 s down, 1 s pause, 1 s up; after the last set: rest 4 min, easy walk");
    EXPECT_EQ(first_dose("circuit: 3 rounds\nsquat: 5\nrest: 45 s\n"), "5; then rest 45 s");
    EXPECT_EQ(plain(wording::format(english,
                                    only_block("sets: rest 60 s\nsquat: 5\nrest: 4 min easy walk\n"
                                               "circuit: 2 rounds\npush-up: 5"))),
              "rest 60 s between sets, then rest 4 min before the next block, easy walk");
}

TEST(Words, say_a_time_for_amounts_while_the_clock_is_on) {
    EXPECT_EQ(last_dose("stations: 40 s on, 20 s off, 3 rounds\nsquat: 10\n"), "10 in 40 s");
    EXPECT_EQ(last_dose("stations: 40 s on, 20 s off, 3 rounds\nsquat:\n"), "40 s");
}

TEST(Words, leave_the_side_to_a_block_that_says_it) {
    const std::string lunge = "squat: 5 each leg, right first\n";
    EXPECT_EQ(last_dose("circuit: 2 rounds, whole block right then left\n" + lunge), "5");
    EXPECT_EQ(last_dose("circuit: 2 rounds\n" + lunge), "5 each leg, right first");
}

TEST(Words, name_the_directions_of_a_repetition) {
    const std::string star = "movement star:\ndirections: ";
    const auto ways = [&](const std::string& directions, const std::string& item) {
        const program::Program program =
            analysed(star + directions + "\nsession: A\nsets: rest 60 s\n" + item + "\n").program;
        return plain(
            wording::directions(english, program, program.sessions.at(0).blocks.at(0).items.at(0)));
    };
    EXPECT_EQ(ways("forward, side, back", "star: 4"), "each rep: forward, side, back");
    EXPECT_EQ(ways("3", "star: 4"), "each rep: 3 directions");
    EXPECT_EQ(ways("3", "star + squat: 4 + 4"), "each star: 3 directions");
    EXPECT_EQ(ways("3", "star: 20 s"), "");
    EXPECT_EQ(ways("3", "squat: 4"), "");
}

TEST(Words, say_where_a_rest_of_a_block_falls) {
    EXPECT_EQ(format("rest 60 s", "sets"), "rest 60 s between sets");
    const std::string two = "\nsquat: 2 x 5\npush-up: 2 x 5";
    const auto said = [&](const std::string& format) {
        return plain(wording::format(english, only_block(format + two)));
    };
    EXPECT_EQ(said("sets: rest 60 s"), "rest 60 s after every set");
    EXPECT_EQ(said("sets: rest 60 s, 2 min between movements"),
              "rest 60 s between sets, rest 2 min between movements");
    EXPECT_EQ(said("sets: rest walk back"), "rest after every set: walk back");
    EXPECT_EQ(format("2 rounds, rest as needed, about 2 min"),
              "2 rounds, rest as needed between rounds, about 2 min");
    EXPECT_EQ(format("2 rounds, rest 3 min easy row"),
              "2 rounds, rest 3 min between rounds, easy row");
    EXPECT_EQ(format("every 3 min all movements, 4 rounds, rest 2 min"),
              "all of it every 3 min, 4 rounds, on top of that rest 2 min between rounds");
}

TEST(Words, say_how_a_block_runs) {
    EXPECT_EQ(format("3 to 4 rounds, rest 60 s"), "3–4 rounds, rest 60 s between rounds");
    EXPECT_EQ(format("as many rounds as possible in 8 min"), "as many rounds as possible in 8 min");
    EXPECT_EQ(format("for time"), "for time");
    EXPECT_EQ(format("for time, cap 15 min, 3 rounds"), "3 rounds for time, at most 15 min");
    EXPECT_EQ(format("every 2 min, 5 rounds"), "every 2 min, 5 rounds");
    EXPECT_EQ(format("every 1 min next movement, 6 rounds"),
              "a new movement every 1 min, 6 rounds");
    EXPECT_EQ(format("every 3 min all movements, 4 rounds"), "all of it every 3 min, 4 rounds");
    EXPECT_EQ(format("40 s on, 20 s off, 3 rounds"), "40 s on, 20 s off, 3 rounds");
    EXPECT_EQ(format("2 rounds, whole block left then right, 15 s between sides"),
              "2 rounds, the whole block left, then right, rest 15 s between sides");
    EXPECT_EQ(format("2 rounds, whole block right then left"),
              "2 rounds, the whole block right, then left");
    EXPECT_EQ(format("2 rounds, people 12, in pairs, 15 s between stations", "stations"),
              "2 rounds, 12 people in pairs, rest 15 s between stations");
    EXPECT_EQ(format("2 rounds, in threes", "stations"), "2 rounds, in threes");
}

}  // namespace
}  // namespace stave
