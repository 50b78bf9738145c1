#include "tests/fuzz/varied_sessions.hpp"

#include <fmt/format.h>

namespace stave::testing {

namespace {

constexpr std::string_view titles[] = {"Slack water", "Ebb and flood", "Lee shore",
                                       "Night watch", "Kieler Förde",  "Harbour wall"};
constexpr std::string_view cues[] = {"long hands, quiet hips", "ribs down", "eyes on the horizon",
                                     "push the floor away"};
// How a block of turns runs, without a list of its own.
constexpr std::string_view formats[] = {
    "as many rounds as possible in 8 min",
    "AMRAP 12 min",
    "for time",
    "for time, cap 15 min, 3 rounds",
    "every 5 min next movement, 2 rounds",
    "every 20 min all movements, 2 rounds",
    "3 to 4 rounds, 20 s between movements, rest 60 to 90 s between rounds",
    "2 rounds, whole block left then right, 15 s between sides",
    "2 rounds, people 12, in pairs, rest as needed, about 2 min",
    "2 rounds, rest as long as the work",
};

// Words below a movement.
std::string remarks(Chance& chance) {
    std::string text;
    if (chance.one_in(4)) text += fmt::format("    cue: {}\n", chance.of(cues));
    if (chance.one_in(9)) text += "    fault: pulling with the back -> chest up first\n";
    if (chance.one_in(12)) text += "    # the tide turns at eight\n";
    if (chance.one_in(12)) text += "    count: one counts when the bag touches the ribs\n";
    if (chance.one_in(12)) text += "    options: hands on a box, feet on a box\n";
    if (chance.one_in(9)) text += "    or band row: 15 @ band heavy, if no sandbag\n";
    if (chance.one_in(20)) text += "    stop: the grip opens\n    note: turn the bag\n";
    return text;
}

std::string circuit(Chance& chance) {
    const std::string_view kind = chance.one_in(2)   ? "circuit"
                                  : chance.one_in(2) ? "superset"
                                                     : "stations";
    if (chance.one_in(2)) {
        return fmt::format("{} {}: {}\n", kind, chance.of(titles), chance.of(formats));
    }
    return fmt::format("{} {}: {} rounds, rest {} s\n", kind, chance.of(titles),
                       chance.between(2, 5), 10 * chance.between(3, 12));
}

// Work and rest by the clock, where a movement needs no amount.
std::string stations(Chance& chance) {
    std::string text =
        fmt::format("stations {}: {} s on, {} s off, {} rounds, rest 2 min\n", chance.of(titles),
                    10 * chance.between(2, 6), 10 * chance.between(1, 3), chance.between(1, 4));
    text +=
        "  wall sit:\n  sandbag row: @ 20 kg\n  push-up: 10\n    level 2: 14\n    group B: 20 s\n";
    return text + remarks(chance) + '\n';
}

std::string block(Chance& chance) {
    if (chance.one_in(8)) return stations(chance);
    const int items = chance.between(1, 4);
    const bool by_rounds = chance.one_in(2);
    std::string text =
        by_rounds ? circuit(chance)
                  : fmt::format("sets {}: rest {} min\n", chance.of(titles), chance.between(1, 3));
    if (chance.one_in(9)) text += "  note: the deck is wet\n  options: inside, outside\n";
    if (chance.one_in(6)) text += fmt::format("  columns: {}\n", chance.between(1, 2));
    for (int i = 0; i < items; ++i) {
        text += by_rounds ? round_line(chance) : sets_line(chance);
        text += remarks(chance);
    }
    return text + '\n';
}

}  // namespace

std::string session(Chance& chance, int number) {
    std::string text = fmt::format("session {}: {}\n", number, chance.of(titles));
    text += fmt::format("when: {}-{:02}-{:02} {:02}:{:02}{}\n", chance.between(2026, 2030),
                        chance.between(1, 12), chance.between(1, 28), chance.between(4, 22),
                        15 * chance.between(0, 3), chance.one_in(3) ? ", Europe/Lisbon" : "");
    if (chance.one_in(2)) text += "place: Boathouse loft\n";
    if (chance.one_in(4)) text += "series: Winter strength\ncoach: M. Okafor\n";
    if (chance.one_in(4)) text += "link: https://example.org/tides?week=3#deck\n";
    if (chance.one_in(6)) text += "pages: 2\n";
    if (chance.one_in(3)) text += "kit: 2 kettlebells 8 kg, sandbag 20 kg, band heavy\n";
    if (chance.one_in(5)) text += "for: Mara, Jonas\navoid: overhead, jumping\n";
    if (chance.one_in(5)) text += "stop: dizziness\nnote: shoes with grip\n";
    text += '\n';
    if (chance.one_in(2)) text += "warm-up:\n  easy skip: 2 min\n  arm circle: 8 each way\n\n";
    const int blocks = chance.between(2, 4);
    for (int i = 0; i < blocks; ++i)
        text += block(chance);
    if (chance.one_in(3)) text += "cool-down: 2 rounds\n  box breathing: 8 breaths\n\n";
    return text;
}

std::string sessions(std::uint64_t seed, std::size_t size) {
    Chance chance(seed);
    std::string text;
    for (int number = 1; text.size() < size; ++number)
        text += session(chance, number);
    return text;
}

}  // namespace stave::testing
