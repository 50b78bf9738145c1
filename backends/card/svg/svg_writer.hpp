// Writes a page as SVG 2 that needs no fonts: every glyph is an outline, written once and
// used wherever it is drawn, so the picture is the same in every program.
//
// Lengths are points, greys are sRGB. The whole is an image to assistive technology: its
// title is the page's, and its description the page's texts in reading order. The same
// page gives the same bytes.
#pragma once

#include <string>

#include "backends/card/fonts.hpp"
#include "backends/card/page.hpp"

namespace stave::card {

[[nodiscard]] std::string write_svg(const Page& page, Fonts& fonts);

}  // namespace stave::card
