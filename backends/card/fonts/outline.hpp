// A glyph's outline as steps, by HarfBuzz.
#pragma once

#include "backends/card/fonts.hpp"
#include "backends/card/fonts/harfbuzz.hpp"

namespace stave::card {

[[nodiscard]] Outline outline_of(hb_font_t* font, std::uint32_t glyph);

}  // namespace stave::card
