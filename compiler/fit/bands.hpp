// Bands by their strength: which one of an athlete's takes the place of one that they lack.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "compiler/program/athlete.hpp"

namespace stave::fit {

// "band heavy", "heavy bands": the band of this name. Both are folded.
[[nodiscard]] bool is_band_named(std::string_view folded_thing, const std::string& folded_name);

// "band heavy" and "heavy band" are the band heavy; one without a name is none of them.
[[nodiscard]] bool has_band(const program::Athlete& athlete, const std::string& name);

// The name of the band nearest in strength, of extra light, light, medium, heavy and extra
// heavy (common practice, no source: makers' bands differ). Of two as near the one that is
// easier: the lighter, or of one that helps the heavier. Nothing where the name is none of
// these, or none of them is there.
[[nodiscard]] std::optional<std::string> nearest_band(const program::Athlete& athlete,
                                                      const std::string& name, bool helps);

}  // namespace stave::fit
