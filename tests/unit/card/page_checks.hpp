// What must hold for every laid-out page, whatever stands on it.
#pragma once

#include <string>
#include <vector>

#include "backends/card/fonts.hpp"
#include "backends/card/page.hpp"

namespace stave::card::test {

// One sentence for each way the page breaks a rule; empty for a clean page:
// - nothing lies outside margins of 10 mm, on A6 of 7 mm;
// - no text touches another text, or a line, or the edge of a box or circle;
// - boxes and circles do not overlap;
// - a square code has its quiet zone of four modules, with nothing in it;
// - no text is smaller than 7 pt, on A3 than 12 pt, or paler than the contrast ratio 7:1.
[[nodiscard]] std::vector<std::string> faults_of(const Page& page, Fonts& fonts);

// All texts in the page's order with blanks taken out: words that were broken
// over two lines are whole again.
[[nodiscard]] std::string packed_text(const Page& page);
[[nodiscard]] std::string packed(const std::string& text);

}  // namespace stave::card::test
