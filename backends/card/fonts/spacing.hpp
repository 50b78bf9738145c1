// Blanks that print narrower than the face has them.
#pragma once

#include <string_view>

#include "backends/card/fonts.hpp"

namespace stave::card {

// The no-break space between a figure and the symbol of a unit ("60 kg", "20 %") is drawn
// as a thin space of a fifth of an em (Unicode 15, section 6.2, gives a thin space a fifth
// or a sixth), so that the two read as one thing. The text stays as it is.
void thin_before_units(ShapedText& shaped, std::string_view text, int units_per_em);

}  // namespace stave::card
