// Movement lines of made-up sessions.
#include <fmt/format.h>

#include <iterator>

#include "tests/fuzz/varied_sessions.hpp"

namespace stave::testing {

namespace {

constexpr std::string_view lifts[] = {"deadlift",   "front squat", "floor press", "split squat",
                                      "bent row",   "hip thrust",  "clean pull",  "overhead press",
                                      "calf raise", "Kniebeuge",   "elevação",    "тяга"};
constexpr std::string_view body_moves[] = {"push-up", "chin-up", "dip", "inchworm",
                                           "90/90 hip switch"};
constexpr std::string_view carries[] = {"suitcase carry", "sandbag carry", "stair march"};
constexpr std::string_view still[] = {"wall sit", "side plank", "dead hang"};
constexpr std::string_view sides[] = {" each side", " each leg", " each arm"};
constexpr std::string_view loads[] = {"band heavy",
                                      "band light helping",
                                      "bodyweight",
                                      "bodyweight plus 5 kg",
                                      "bodyweight minus 12.5 kg",
                                      "empty bar",
                                      "last time",
                                      "last time plus 2.5 kg",
                                      "75 %",
                                      "70 to 75 %",
                                      "60 % of deadlift",
                                      "85 % of top set",
                                      "0.5 x bodyweight",
                                      "8 rep max",
                                      "90 % of 8 rep max",
                                      "4 kg overhead and 16 kg low",
                                      "8 kg left and 12 kg right",
                                      "RPE 7",
                                      "2 in reserve",
                                      "70 % effort",
                                      "20 to 25 kg"};
constexpr std::string_view details[] = {"tempo 31X0",
                                        "lower 4 s only",
                                        "breath in 4 s, out 6 s",
                                        "pause 1 s below the knee",
                                        "hold 2 s at the top",
                                        "hold at 60 deg",
                                        "arc 20 deg",
                                        "arc 60 to 110 deg",
                                        "arc 10 deg in to 30 deg out",
                                        "from 20 cm",
                                        "over 30 cm",
                                        "RPE 7 to 8",
                                        "2 in reserve",
                                        "rest 20 s",
                                        "rest as needed, about 30 s"};
// Lines that stand in a round as well as in straight sets.
constexpr std::string_view anywhere[] = {
    "shuttle: 20 m there and back",
    "clean + press: 3 + 3 @ 20 kg",
    "swing + plank: 10 + 20 s",
    "press: (2 + 2 + 2, rest 15 s) @ 40 kg",
    "plank: (20 + 10 s, rest 5 s)",
    "bench press: (3 x 3, rest 20 s) @ 50 kg",
    "push-up: ladder 1..4..1",
    "dip: 5 or more",
    "broad jump: best of 3",
    "row: max m in 2 min",
    "row: 200 m in 50 s",
    "row: 250 m @ 2:10 per 500 m",
    "row: 250 m @ 2000 m pace plus 6 s",
    "row: 2 min @ 20 strokes per min",
    "run: 400 m @ 12 km per h",
    "ride: 15 kcal",
    "ride: 2 min @ 150 W",
    "ride: 3 min @ heart rate 125 to 140",
    "easy jog: 2 min @ zone 2",
    "mixed carry: 30 m @ 8 kg overhead and 16 kg low, then swapped",
    "bag carry: 60 m @ 20 kg, swap hands every 20 m",
    "step-down: 6 each leg, right first, 10 s between sides",
    "dead bug: 8 alternating, left first",
    "side bend: 8 left",
    "side bend: 8 right",
    "hip circle: 6 each way",
    "brisk walk: 3 min, incline 4 %",
    "game tug-of-war: 2 min",
    "do circuit breaker: 8",
};
constexpr std::string_view in_sets[] = {
    "push-up: 30 total",
    "dip: 3 x 5 then 1 x max",
    "press: 5-5-max @ 30 kg",
    "back squat: 2 waves of 5-3-2 @ 70-72.5-75 %, each wave 2.5 % up",
    "front squat: 2 waves of 4-3-2 @ 40-50-60 kg",
    "back squat: build to 3 @ RPE 8",
    "clean + front squat: 3 x (1 + 2) @ 50 kg",
    "press: 4 x (2 + 2, rest 15 s) @ 40 kg",
    "rope climb: 2..6 by 2",
    "pull-up: 1..3..1, rest 45 s",
    "goblet squat: 5 @ 8-12-16 kg",
    "bent row: 10 then 8 @ 20 then 25 kg",
    "curl: 5-5-3 @ RPE 7-8-9",
    "dip: 2 x 6 @ RPE 7 then 8",
    "ring row: 8-6-4 @ bodyweight minus 30-20-10 kg",
    "bench press: 5-5-3 @ 70-72-75 %",
    "step-up: 12-10-8 each leg @ 2 x 8 kg, load rises",
    "sled drag: 8-10-12 m, load falls",
    "run: 3 x 100 m in 24 s, rest walk back",
    "run: 3 x 200 m in 44 s, rest as long as the work",
    "hill walk: 3 x 2 min, incline 2-4-6 %",
    "split squat: 2 x 8 each leg, 20 s between sides",
    "inchworm + shoulder tap: 3..1 + 2..6 by 2",
    "plank: 30-40-50 s",
};

std::string load(Chance& chance) {
    switch (chance.pick(6)) {
        case 0:
            return fmt::format(" @ {} kg", chance.between(20, 120));
        case 1:
            return fmt::format(" @ {}.5 kg", chance.between(10, 60));
        case 2:
            return fmt::format(" @ {} lb", chance.between(25, 225));
        case 3:
            return fmt::format(" @ 2 x {} kg", chance.between(6, 32));
        case 4:
            return fmt::format(" @ {}", chance.of(loads));
        default:
            return "";
    }
}

std::string detail(Chance& chance) {
    switch (chance.pick(6)) {
        case 0:
            return fmt::format(", tempo {}-{}-{}-0", chance.between(1, 5), chance.between(0, 2),
                               chance.between(1, 3));
        case 1:
            return fmt::format(", hold {} s", chance.between(1, 5));
        case 2:
            return fmt::format(", {}", chance.of(details));
        default:
            return "";
    }
}

std::string amount(Chance& chance) {
    switch (chance.pick(8)) {
        case 0:
            return fmt::format("{} to {}", chance.between(3, 8), chance.between(9, 15));
        case 1:
            return fmt::format("{}{}", chance.between(3, 15), chance.of(sides));
        case 2:
            return fmt::format("{} alternating", 2 * chance.between(3, 10));
        default:
            return std::to_string(chance.between(1, 20));
    }
}

}  // namespace

std::string round_line(Chance& chance) {
    switch (chance.pick(7)) {
        case 0:
            return fmt::format("  {}: {} steps each side @ {} kg\n", chance.of(carries),
                               10 * chance.between(2, 8), chance.between(8, 32));
        case 1:
            return fmt::format("  {}: {} s\n", chance.of(still), 5 * chance.between(2, 12));
        case 2:
            return fmt::format("  {}: {}{}\n", chance.of(body_moves), amount(chance),
                               detail(chance));
        case 3:
            return fmt::format("  row: {} m\n", 50 * chance.between(2, 20));
        case 4:
        case 5:
            return fmt::format("  {}\n", chance.of(anywhere));
        default:
            return fmt::format("  {}: {}{}{}\n", chance.of(lifts), amount(chance), load(chance),
                               detail(chance));
    }
}

std::string sets_line(Chance& chance) {
    switch (chance.pick(6)) {
        case 0:
            return fmt::format("  {}: {} x max\n", chance.of(body_moves), chance.between(2, 4));
        case 1:
            return fmt::format("  {}: {}-{}-{} @ {}-{}-{} kg\n", chance.of(lifts), 12, 10,
                               chance.between(6, 9), chance.between(20, 40), chance.between(41, 60),
                               chance.between(61, 80));
        case 2:
            return fmt::format("  {}: {} x {} s, rest {} s\n", chance.of(still),
                               chance.between(2, 5), 5 * chance.between(2, 12),
                               10 * chance.between(2, 9));
        case 3:
            return fmt::format("  {}\n", chance.of(in_sets));
        case 4:
            return fmt::format("  {}\n", chance.of(anywhere));
        default:
            return fmt::format("  {}: {} x {}{}{}\n", chance.of(lifts), chance.between(2, 6),
                               amount(chance), load(chance), detail(chance));
    }
}

}  // namespace stave::testing
