#include <fmt/format.h>

#include <array>

#include "tests/fuzz/varied_sessions.hpp"

namespace stave::testing {

namespace {

constexpr std::array<std::string_view, 6> names{"Mara Lindqvist", "Jonas Feld", "Inês Prata",
                                                "Tom Achterdek",  "Ada Skerry", "Λυδία Νήσου"};

constexpr std::string_view kits[] = {
    "barbell 20 kg, rack, 2 pairs of plates 20 15 10 5 2.5 1.25 kg, box 40 cm",
    "barbell 45 lb, rack, pairs of plates 45 35 25 10 5 2.5 lb, 2 dumbbells 20 35 50 lb",
    "barbell 15 kg, collars 0.5 kg, rack, pairs of plates 25 5 0.5 kg, plates 10 lb",
    "barbell 20 kg, rack, pairs of plates 20 15 15 kg, 2 kettlebells 12 16 24 kg, rower",
    "kettlebells 8 12 16 kg, sandbag 20 kg, band heavy, band light",
    "backpack 12 kg, pull-up bar, 2 dumb-bells 5 7.5 10 kg",
    "Boathouse",
};

constexpr std::string_view avoided[] = {"jumping", "overhead", "hinge"};

constexpr std::string_view ages[] = {"under 6", "under 16", "adult", "over 60", "over 90"};

constexpr std::string_view methods[] = {"Epley",  "Brzycki",  "Lombardi", "Lander",
                                        "Mayhew", "O'Conner", "Wathan",   "spread"};

constexpr std::string_view lines[] = {
    "back squat: 3 x 5 @ 75 %",
    "back squat: 5-5-3 @ 70-75-82.5 %, tempo 3-1-1-0",
    "deadlift: 12-10-8-6 @ 2 in reserve, load rises",
    "deadlift: 8-6-4, load rises\n    cue: no jump, then a jump",
    "deadlift: 4 x 3 @ RPE 8",
    "bench press: 3 x 8 @ 10 rep max",
    "swing: 3 x 15 @ 16 kg\n    or hip thrust: 15, if no kettlebell",
    "goblet squat: 3 x 10 @ 20 % of bodyweight",
    "farmer carry: 3 x 30 m @ 25 % of bodyweight",
    "row: 4 x 500 m @ 2000 m pace plus 8 s, rest 2 min\n    or burpee: 10, if no rower",
    "box jump: 3 x 5\n    or step-up: 8 each leg, if no jumping",
    "pull-up: 3 x 5 @ band heavy",
    "press: 3 x 5 @ 20-22.5-25 kg",
};

std::string athlete(Chance& chance, std::string_view name) {
    std::string text = fmt::format("athlete {}:\n", name);
    const bool by_pounds = chance.one_in(3);
    text += by_pounds ? fmt::format("  weight: {} lb\n  units: lb\n", chance.between(110, 240))
                      : fmt::format("  weight: {} kg\n", chance.between(48, 120));
    text += fmt::format("  kit: {}\n", chance.of(kits));
    if (chance.one_in(3)) text += fmt::format("  avoid: {}\n", chance.of(avoided));
    if (chance.one_in(2)) text += fmt::format("  estimate by: {}\n", chance.of(methods));
    if (chance.one_in(3)) text += chance.one_in(2) ? "  rounding: down\n" : "  rounding: up\n";
    if (chance.one_in(4)) text += "  language: Greek\n";
    if (chance.one_in(2)) text += fmt::format("  age group: {}\n", chance.of(ages));
    for (const std::string_view lift : {"back squat", "deadlift", "bench press"}) {
        const int tests = chance.between(1, 3);
        for (int month = 1; month <= tests; ++month) {
            text += fmt::format("  test {}: {} @ {} {} on 2026-{:02}-{:02}\n", lift,
                                chance.between(1, 12), chance.between(25, 220),
                                by_pounds ? "lb" : "kg", month, chance.between(1, 28));
        }
    }
    text += fmt::format("  test row: 2000 m in {}:{:02} on 2026-02-{:02}\n", chance.between(6, 11),
                        chance.between(0, 59), chance.between(1, 28));
    return text + '\n';
}

}  // namespace

std::string crew(Chance& chance, int number) {
    std::string text = "kit Boathouse: barbell 20 kg, rack, pairs of plates 20 10 5 kg, rower\n\n";
    const int people = chance.between(1, static_cast<int>(names.size()));
    std::string listed;
    for (int i = 0; i < people; ++i) {
        const std::string_view name = names[static_cast<std::size_t>(i)];
        text += athlete(chance, name);
        listed += fmt::format("{}{}", i == 0 ? "" : ", ", name);
    }
    text += fmt::format("squad Shore: {}\n\n", listed);
    text += fmt::format("session {}: Falling glass\nwhen: 2026-05-{:02} 18:30\nfor: Shore\n\n",
                        number, chance.between(1, 28));
    text += "sets Strength: rest 2 min\n";
    const int items = chance.between(1, 5);
    for (int i = 0; i < items; ++i)
        text += fmt::format("  {}\n", chance.of(lines));
    return text;
}

}  // namespace stave::testing
