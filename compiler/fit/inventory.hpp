// An athlete's kit sorted by how loads are made of it: bars with plates, and things that are a
// load by themselves.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/program/athlete.hpp"

namespace stave::fit {

// A weight, and how many of it there are.
struct Stock {
    Quantity mass;
    std::int64_t count = 1;
};

// Dumb-bells, kettlebells, a backpack: a name and its weights.
struct Implements {
    std::string folded_name;
    std::vector<Stock> stocks;
};

struct Bar {
    std::string folded_name;
    Quantity mass;
};

struct Inventory {
    // Heaviest first; `count` are pairs, one plate for each side.
    std::vector<Stock> plates;
    std::vector<Bar> bars;
    // Of both collars together; 0 where none are listed.
    Quantity collars{Ratio(0), Unit::kilogram};
    std::vector<Implements> implements;
};

// "plates", "pairs of plates", "pair of", and whether it counts pairs. Of folded names.
[[nodiscard]] bool is_plates(std::string_view folded);
[[nodiscard]] bool is_pairs(std::string_view folded);
// Pairs that a thing of plates has of each of its sizes.
[[nodiscard]] std::int64_t pairs_in(const program::KitThing& plates, std::string_view folded);

// A bar whose weight is not said weighs 20 kg (the men's bar of the IWF rules). "plates 20 kg"
// are a pair, "4 plates 20 kg" two, "2 pairs of plates 20 kg" too; an odd plate is left over.
[[nodiscard]] Inventory take_stock(const std::vector<program::KitThing>& kit);

}  // namespace stave::fit
