// Draws a page as a PNG with cairo; no other folder sees cairo.
//
// Glyphs are drawn from their outlines, as in every other writer, so no fonts are looked
// for. Grey on white paper. The same page gives the same bytes.
#pragma once

#include <optional>
#include <string>

#include "backends/card/fonts.hpp"
#include "backends/card/page.hpp"

namespace stave::card {

// From a picture for a list of files to more than any printer prints.
inline constexpr int least_dots_per_inch = 18;
inline constexpr int most_dots_per_inch = 600;

// Nothing where cairo refuses: out of memory, or a page of no size.
[[nodiscard]] std::optional<std::string> write_png(const Page& page, Fonts& fonts,
                                                   int dots_per_inch);

}  // namespace stave::card
