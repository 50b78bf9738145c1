// Sessions as coaches write them, made up from a number: the same seed gives the
// same text on every machine.
#pragma once

#include <cstddef>
#include <cstdint>
#include <random>
#include <string>
#include <string_view>

namespace stave::testing {

// std::mt19937_64 is the same everywhere (C++ standard, [rand.predef]); the
// library's distributions are not, so choices are taken by remainder.
class Chance {
public:
    explicit Chance(std::uint64_t seed) : engine_(seed) {}

    // 0 .. below - 1; below >= 1.
    [[nodiscard]] std::size_t pick(std::size_t below) {
        return static_cast<std::size_t>(engine_() % below);
    }
    [[nodiscard]] int between(int first, int last) {
        return first + static_cast<int>(pick(static_cast<std::size_t>(last - first) + 1));
    }
    [[nodiscard]] bool one_in(std::size_t count) { return pick(count) == 0; }
    template <typename List>
    [[nodiscard]] const auto& of(const List& list) {
        return list[pick(std::size(list))];
    }

private:
    std::mt19937_64 engine_;
};

// A movement's line without sets of its own, as it stands in a block with rounds:
// "  step-up: 10 each side @ 2 x 8 kg\n".
[[nodiscard]] std::string round_line(Chance& chance);

// A movement's line for straight sets: "  deadlift: 4 x 5 @ 60 kg, rest 2 min\n".
[[nodiscard]] std::string sets_line(Chance& chance);

// A whole session of 2 to 4 blocks without errors, with cues, kit and remarks.
[[nodiscard]] std::string session(Chance& chance, int number);

// A file of 1 to 6 athletes with kits and tests, and a session that asks for loads by them.
// Some can make no load that is asked for, which is a warning.
[[nodiscard]] std::string crew(Chance& chance, int number);

// A file of at least `size` bytes, sessions numbered from 1.
[[nodiscard]] std::string sessions(std::uint64_t seed, std::size_t size);

}  // namespace stave::testing
