#include "tests/fuzz/varied_sessions.hpp"

#include <fmt/format.h>

#include <iterator>

namespace stave::testing {

namespace {

constexpr std::string_view lifts[] = {"deadlift",   "front squat", "floor press", "split squat",
                                      "bent row",   "hip thrust",  "clean pull",  "overhead press",
                                      "calf raise", "Kniebeuge",   "elevação",    "тяга"};
constexpr std::string_view body_moves[] = {"push-up", "chin-up", "dip", "inchworm",
                                           "90/90 hip switch"};
constexpr std::string_view carries[] = {"suitcase carry", "sandbag carry", "stair march"};
constexpr std::string_view still[] = {"wall sit", "side plank", "dead hang"};
constexpr std::string_view titles[] = {"Slack water", "Ebb and flood", "Lee shore",
                                       "Night watch", "Kieler Förde",  "Harbour wall"};
constexpr std::string_view cues[] = {"long hands, quiet hips", "ribs down", "eyes on the horizon",
                                     "push the floor away"};
constexpr std::string_view sides[] = {" each side", " each leg", " each arm"};

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
            return " @ band heavy";
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
            return fmt::format(", tempo {}-1-X-0", chance.between(2, 4));
        case 2:
            return fmt::format(", hold {} s", chance.between(1, 5));
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

std::string remarks(Chance& chance) {
    std::string text;
    if (chance.one_in(4)) text += fmt::format("    cue: {}\n", chance.of(cues));
    if (chance.one_in(9)) text += "    fault: pulling with the back -> chest up first\n";
    if (chance.one_in(12)) text += "    # the tide turns at eight\n";
    return text;
}

std::string block(Chance& chance) {
    const int items = chance.between(1, 4);
    std::string text;
    const bool by_rounds = chance.one_in(2);
    if (by_rounds) {
        text =
            fmt::format("{} {}: {} rounds, rest {} s\n", chance.one_in(2) ? "circuit" : "superset",
                        chance.of(titles), chance.between(2, 5), 10 * chance.between(3, 12));
    } else {
        text = fmt::format("sets {}: rest {} min\n", chance.of(titles), chance.between(1, 3));
    }
    for (int i = 0; i < items; ++i) {
        text += by_rounds ? round_line(chance) : sets_line(chance);
        text += remarks(chance);
    }
    return text + '\n';
}

}  // namespace

std::string round_line(Chance& chance) {
    switch (chance.pick(5)) {
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
        default:
            return fmt::format("  {}: {}{}{}\n", chance.of(lifts), amount(chance), load(chance),
                               detail(chance));
    }
}

std::string sets_line(Chance& chance) {
    switch (chance.pick(4)) {
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
        default:
            return fmt::format("  {}: {} x {}{}{}\n", chance.of(lifts), chance.between(2, 6),
                               amount(chance), load(chance), detail(chance));
    }
}

std::string session(Chance& chance, int number) {
    std::string text = fmt::format("session {}: {}\n", number, chance.of(titles));
    text += fmt::format("when: {}-{:02}-{:02} {:02}:{:02}{}\n", chance.between(2026, 2030),
                        chance.between(1, 12), chance.between(1, 28), chance.between(4, 22),
                        15 * chance.between(0, 3), chance.one_in(3) ? ", Europe/Lisbon" : "");
    if (chance.one_in(2)) text += "place: Boathouse loft\n";
    if (chance.one_in(3)) text += "kit: 2 kettlebells 8 kg, sandbag 20 kg, band heavy\n";
    text += '\n';
    const int blocks = chance.between(2, 4);
    for (int i = 0; i < blocks; ++i)
        text += block(chance);
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
