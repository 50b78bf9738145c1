// People and what is known of them: squads, tested loads, kit, what they avoid.
//
// Plain values with names resolved by `check`. What stands here is personal: it goes into a
// person's own card, feed and page, and into no other.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/quantity/quantity.hpp"
#include "compiler/source/span.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::program {

using Estimate = grammar::Estimate;

// One thing of a kit line: "2 kettlebells 8 12 kg" are two of 8 kg and two of 12 kg.
struct KitThing {
    std::int64_t count = 1;
    std::string name;
    std::vector<Ratio> sizes;
    std::optional<Unit> unit;

    friend bool operator==(const KitThing&, const KitThing&) = default;
};

// "kit Boathouse loft: ...", to be named in sessions and by athletes.
struct NamedKit {
    std::string name;
    std::string folded_name;
    std::vector<KitThing> things;
    Span span;
};

// To which of two weights a load that is not there goes.
enum class Rounding : std::uint8_t { nearest, down, up };

// What somebody could do on a day: a load so many times, or an amount in a time.
struct Test {
    // As typed and as names are compared.
    std::string movement;
    std::string folded_movement;
    // Index into Program::movements, where the files define the movement.
    std::optional<std::uint32_t> definition;
    // Reps, 1 to 36, where there is a load.
    Quantity amount;
    // A mass > 0, of each of `implements`.
    std::optional<Quantity> load;
    std::int64_t implements = 1;
    // The time the amount took.
    std::optional<Quantity> time;
    std::chrono::year_month_day date;
    Span span;
};

// What somebody must not do; which of its lists it stands in says what is meant.
struct Avoided {
    std::vector<grammar::Demand> demands;
    std::vector<grammar::Pattern> patterns;
    // Movements, by their folded names.
    std::vector<std::string> folded_movements;

    [[nodiscard]] bool is_empty() const {
        return demands.empty() && patterns.empty() && folded_movements.empty();
    }
};

// "under 16", "adult", "over 60". `years` is 6 to 23 of `under`, 35 to 90 of `over`, else 0.
struct AgeGroup {
    enum class Bound : std::uint8_t { under, adult, over };
    Bound bound = Bound::adult;
    int years = 0;
};

struct Athlete {
    std::string name;
    std::string folded_name;
    // For the names of files: lower-case ASCII letters, digits and hyphens; unique among the
    // athletes; never empty.
    std::string slug;
    // Mass, 20 to 400 kg.
    std::optional<Quantity> weight;
    std::optional<AgeGroup> age_group;
    // Kilograms or pounds, where it is said in which loads are thought of.
    std::optional<Unit> unit;
    std::optional<grammar::Language> language;
    Rounding rounding = Rounding::nearest;
    // Where it is not said, tests go by Epley, and loads that rise by the chart.
    std::optional<Estimate> estimate;
    Avoided avoided;
    // What is at hand; named kits are filled in.
    std::vector<KitThing> kit;
    // A kit line is there: what it does not list is not there.
    bool says_kit = false;
    std::vector<Test> tests;
    Span span;
};

struct Squad {
    std::string name;
    std::string folded_name;
    // Indices into Program::athletes, rising; those of squads in it as well.
    std::vector<std::uint32_t> athlete_ids;
    Span span;
};

}  // namespace stave::program
