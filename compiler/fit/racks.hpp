// What weights an athlete can make, and the one that a load goes to.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/fit/inventory.hpp"
#include "compiler/loads/rack.hpp"
#include "compiler/program/program.hpp"

namespace stave::fit {

// A weight that is there, of one implement.
struct Made {
    Quantity mass;
    // On each side of a bar, heaviest first; none on an empty one and on other things.
    std::vector<Quantity> plates;
    // Of what it is made of a bar.
    std::optional<Quantity> bar;
    // Next to what was asked for, where that is not there.
    std::optional<Quantity> below;
    std::optional<Quantity> above;
    // The kit is not known, so that it goes to a multiple of this.
    std::optional<Quantity> step;
};

// The racks of one kit, made once. `unit` is kilograms or pounds: of loads that are made of
// weights in both, and of steps.
class Racks {
public:
    Racks(const std::vector<program::KitThing>& kit, Unit unit);

    // The movement's name, and of each thing it needs the names of which one is enough, all
    // folded. `implements` is 1, or 2 of one weight. Kilograms or pounds.
    [[nodiscard]] Made round(const std::string& folded_name,
                             const std::vector<std::vector<std::string>>& needs,
                             std::int64_t implements, Quantity target,
                             program::Rounding rounding) const;

    // Some plates were left out of some bar's loads: see ReachableLoads.
    [[nodiscard]] bool is_cut() const;

private:
    struct Rack {
        std::string folded_name;
        std::int64_t implements = 1;
        std::optional<Quantity> bar;
        // Plates, one of each pair, or things.
        std::vector<Quantity> weights;
        loads::ReachableLoads reachable;
    };

    [[nodiscard]] const Rack* find(const std::string& folded_name,
                                   const std::vector<std::vector<std::string>>& needs,
                                   std::int64_t implements) const;

    [[nodiscard]] Quantity mass_of(const Rack& rack, const std::vector<std::size_t>& ids) const;

    Unit unit_;
    std::vector<Rack> racks_;
};

}  // namespace stave::fit
