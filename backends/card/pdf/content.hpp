// A page as the operators of a PDF content stream (ISO 32000-1, annex A).
//
// Numbers are written from whole hundredths, so nothing is lost or rounded on
// the way except curves and raised glyphs, to the nearest hundredth of a point.
// The fonts are named F1 to F4 by the order of Face. What is drawn stands in marked
// content, numbered as the structure says.
#pragma once

#include <string>
#include <vector>

#include "backends/card/fonts.hpp"
#include "backends/card/page.hpp"
#include "backends/card/pdf/font_subset.hpp"
#include "backends/card/pdf/structure.hpp"

namespace stave::card {

// Takes note in `subsets`, indexed by Face, of the glyphs that it draws.
[[nodiscard]] std::string content_of(Centipoints page_height, const PageStructure& structure,
                                     Fonts& fonts, std::vector<FontSubset>& subsets);

}  // namespace stave::card
