// What a movement is, by its definition: what is counted, what it loads and asks of whoever
// does it, and the words it lends to the lines that name it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/program/dose.hpp"
#include "compiler/quantity/quantity.hpp"
#include "compiler/source/span.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::program {

using Pattern = grammar::Pattern;
using Demand = grammar::Demand;
using Joint = grammar::Joint;
using LoadedWith = grammar::LoadedWith;

struct Fault {
    std::string what;
    std::string mend;

    friend bool operator==(const Fault&, const Fault&) = default;
};

// How long work takes: seconds for each of a count, or for each metre; rounded to
// a millionth, above 0 and at most a day.
struct Speed {
    Ratio seconds;
    Unit per = Unit::reps;
};

// How a movement goes, in order, and what else is worth knowing of it. Filled for
// every movement; the texts are those of its lines.
struct Technique {
    std::vector<std::string> steps;
    std::vector<std::string> easier;
    std::vector<std::string> harder;
    std::vector<std::string> cautions;
};

struct MovementDefinition {
    std::string name;
    std::vector<std::string> also;
    // It ships with the compiler; the files do not define it.
    bool from_library = false;
    // What a number counts; a bare number counts the first where that is reps or
    // the only one. Empty: reps.
    std::vector<Unit> counted_in;
    // Nothing: not said. `unsided`: works both sides at once.
    std::optional<Sides> sides;
    std::vector<Pattern> patterns;
    std::vector<Joint> joints;
    // Each: names of which one is needed.
    std::vector<std::vector<std::string>> kit;
    // Empty: not said.
    std::vector<LoadedWith> loaded_with;
    std::vector<Demand> demands;
    // Into how many directions one repetition goes, and their names where said.
    std::int64_t directions = 1;
    std::vector<std::string> direction_names;
    // Its first half lifts.
    bool starts_up = false;
    std::optional<Speed> speed;
    Technique technique;
    std::vector<std::string> cues;
    std::vector<Fault> faults;
    Span span;
};

}  // namespace stave::program
