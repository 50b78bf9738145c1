// What a session's kit line says there is, thing by thing and size by size, and what an item
// takes of it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/program/program.hpp"

namespace stave::floors {

// So many of one size; "2 kettlebells 8 12 kg" are two lots of two, "3 pairs of dumbbells" one
// of six. The name without its number: "kettlebells 8 kg".
struct Lot {
    std::string name;
    std::string folded_name;
    std::optional<Quantity> size;
    std::int64_t count = 1;
};

[[nodiscard]] std::vector<Lot> take_lots(const std::vector<program::KitThing>& kit);

// What an item asks for: so many of any of these lots, which are indices. Without lots the kit
// line has nothing that fits; `what` names it either way.
struct Ask {
    std::string what;
    std::vector<std::uint32_t> lots;
    std::int64_t units = 1;
};

// What the item takes in its set, of each need of its movements the first of the choices that is
// there. A load of 2 x 8 kg takes two of 8 kg; bars and what else weights are put on are taken
// one at a time, whatever they weigh; so is a band that is named.
[[nodiscard]] std::vector<Ask> asks(const program::Program& program, const program::Item& item,
                                    std::size_t set, const std::vector<Lot>& lots);

}  // namespace stave::floors
