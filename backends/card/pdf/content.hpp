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

// The operators, and where codes of glyphs stand among them, each as four digits.
struct Content {
    struct Shown {
        std::size_t place = 0;
        Face face{};
        Code code = 0;
    };
    std::string operators;
    std::vector<Shown> shown;
};

// Takes note in `subsets`, indexed by Face, of the glyphs that it draws.
[[nodiscard]] Content content_of(Centipoints page_height, const PageStructure& structure,
                                 Fonts& fonts, std::vector<FontSubset>& subsets);

// Puts the codes that subsets give their glyphs when they have been arranged in the place
// of the first ones.
void arrange_codes(Content& content, const std::vector<FontSubset>& subsets);

}  // namespace stave::card
