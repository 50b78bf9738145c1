#include "backends/card/fonts/spacing.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

namespace stave::card {

namespace {

using namespace std::string_view_literals;

constexpr std::string_view no_break_space = "\u00A0";
// Symbols as the SI brochure and its neighbours write them: never words, which take a
// whole blank.
constexpr std::array symbols{"s"sv,    "min"sv, "h"sv,  "kg"sv, "lb"sv,   "st"sv,   "m"sv,
                             "km"sv,   "cm"sv,  "mm"sv, "in"sv, "ft"sv,   "yd"sv,   "mi"sv,
                             "kcal"sv, "cal"sv, "W"sv,  "%"sv,  "km/h"sv, "min:s"sv};

bool is_figure(char c) {
    return c >= '0' && c <= '9';
}

// From `begin` to the next sign that no symbol has.
std::string_view word_at(std::string_view text, std::size_t begin) {
    const std::size_t end = text.find_first_of(" ,;.)\xC2\xE2", begin);
    return text.substr(begin, end == std::string_view::npos ? end : end - begin);
}

bool stands_before_unit(std::string_view text, std::size_t blank) {
    if (blank == 0 || !is_figure(text[blank - 1])) return false;
    if (!text.substr(blank).starts_with(no_break_space)) return false;
    return std::ranges::find(symbols, word_at(text, blank + no_break_space.size())) !=
           symbols.end();
}

}  // namespace

void thin_before_units(ShapedText& shaped, std::string_view text, int units_per_em) {
    for (Glyph& glyph : shaped.glyphs) {
        if (!stands_before_unit(text, glyph.cluster)) continue;
        const std::int32_t thin = std::min(glyph.advance, units_per_em / 5);
        shaped.advance += thin - glyph.advance;
        glyph.advance = thin;
    }
}

}  // namespace stave::card
