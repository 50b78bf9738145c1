#include "compiler/names/things.hpp"

#include <algorithm>
#include <array>
#include <string>

namespace stave {

bool is_called(std::string_view folded_thing, std::string_view folded_need) {
    if (folded_thing == folded_need) return true;
    for (const std::string_view plural : {"s", "es"}) {
        if (folded_thing.ends_with(plural) &&
            folded_thing.substr(0, folded_thing.size() - plural.size()) == folded_need) {
            return true;
        }
    }
    // The last word says what it is: "pull-up bar" for "bar", "heavy band".
    const std::string tail = " " + std::string(folded_need);
    return folded_thing.ends_with(tail) || folded_thing.ends_with(tail + "s") ||
           folded_thing.starts_with(std::string(folded_need) + " ");
}

bool is_filled(std::string_view folded_thing) {
    constexpr std::array things{"barbell", "bar",   "sled",      "landmine",
                                "plates",  "cable", "leg press", "stretcher"};
    return std::ranges::any_of(things,
                               [&](std::string_view one) { return is_called(folded_thing, one); });
}

}  // namespace stave
