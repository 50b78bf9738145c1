// What sets the length of a rota, and what would make it shorter.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "compiler/floor/rota.hpp"

namespace stave::floors {

// So many more of a resource, enough for one more place.
struct Purchase {
    std::uint32_t resource_id = 0;
    std::int64_t more = 1;
};

// `intervals` are the bound that would hold then; where `is_promised`, it is reached.
struct Buying {
    std::vector<Purchase> purchases;
    std::int64_t intervals = 0;
};

// One station of this resource done without it.
struct Swap {
    std::uint32_t resource_id = 0;
    std::uint32_t station_id = 0;
    std::int64_t intervals = 0;
};

struct Advice {
    // The resources whose bounds are the largest, if larger than a team's own visits.
    std::vector<Bound> tightest;
    // One more place of each of these.
    std::optional<Buying> buying;
    // Where there is one such resource: the station that gains most, the first of equals.
    std::optional<Swap> swap;
};

[[nodiscard]] Advice advise(const Room& room);

}  // namespace stave::floors
