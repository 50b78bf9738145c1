#include <string_view>

#include "backends/card/pdf/content.hpp"

namespace stave::card {

namespace {

// By hand, as it is done for every glyph of every page.
void put_hex(std::string& out, std::size_t place, Code code) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    for (const int shift : {12, 8, 4, 0})
        out[place++] = digits[(code >> shift) & 0xF];
}

}  // namespace

void arrange_codes(Content& content, const std::vector<FontSubset>& subsets) {
    for (Content::Shown& shown : content.shown) {
        shown.code = subsets[static_cast<std::size_t>(shown.face)].arranged(shown.code);
        put_hex(content.operators, shown.place, shown.code);
    }
}

}  // namespace stave::card
