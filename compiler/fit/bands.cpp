#include "compiler/fit/bands.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string_view>

#include "compiler/names/names.hpp"

namespace stave::fit {

namespace {

constexpr std::array<std::string_view, 5> strengths{"extra light", "light", "medium", "heavy",
                                                    "extra heavy"};

}  // namespace

bool is_band_named(std::string_view folded_thing, const std::string& folded_name) {
    return folded_thing == "band " + folded_name || folded_thing == "bands " + folded_name ||
           folded_thing == folded_name + " band" || folded_thing == folded_name + " bands";
}

bool has_band(const program::Athlete& athlete, const std::string& name) {
    const std::string folded = fold_name(name);
    return std::ranges::any_of(athlete.kit, [&](const program::KitThing& thing) {
        return is_band_named(fold_name(thing.name), folded);
    });
}

std::optional<std::string> nearest_band(const program::Athlete& athlete, const std::string& name,
                                        bool helps) {
    const auto* const wanted = std::ranges::find(strengths, fold_name(name));
    if (wanted == strengths.end()) return std::nullopt;
    std::optional<std::string> nearest;
    std::ptrdiff_t least = 0;
    for (const auto* one = strengths.begin(); one != strengths.end(); ++one) {
        const std::string own(*one);
        if (!has_band(athlete, own)) continue;
        const std::ptrdiff_t distance = std::abs(one - wanted);
        // They come from light to heavy.
        const bool is_nearer = !nearest || distance < least || (helps && distance == least);
        if (!is_nearer) continue;
        nearest = own;
        least = distance;
    }
    return nearest;
}

}  // namespace stave::fit
