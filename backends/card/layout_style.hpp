// The look of a card in numbers: the grid, the sizes, the greys. All of it hangs
// on a Style, which the fitting in layout.cpp makes smaller step by step.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "backends/card/page.hpp"

namespace stave::card::layout {

// The x positions that everything stands on.
namespace grid {
inline constexpr Centipoints left = points(36);
inline constexpr Centipoints right = a4_width - points(36);
inline constexpr Centipoints top = points(36);
inline constexpr Centipoints bottom = a4_height - points(33);
// The black tab with a block's letter: from `left`, this wide.
inline constexpr Centipoints tab_width = points(34);
// "C1" and the block's head.
inline constexpr Centipoints label = points(82);
// Movement names and what belongs to them.
inline constexpr Centipoints name = points(103);
// Sets or rounds, where they need no more room than usual.
inline constexpr Centipoints cells = points(302);
// The header's facts: their labels, their values.
inline constexpr Centipoints fact_label = points(390);
inline constexpr Centipoints fact_value = points(430);
// Between two columns of text.
inline constexpr Centipoints gutter = points(12);
}  // namespace grid

// Relative luminance by WCAG 2.1, success criterion 1.4.6: on white, grey 31 has
// a contrast of 8.2:1 and grey 34 of 7.3:1.
namespace grey {
inline constexpr int black = 0;
inline constexpr int soft = 30;
inline constexpr int label = 33;
inline constexpr int rule = 62;
inline constexpr int dots = 45;
inline constexpr int white = 100;
}  // namespace grey

// Nothing smaller can be read at arm's length.
inline constexpr Centipoints smallest_size = points(7);

struct TextStyle {
    Face face = Face::regular;
    Centipoints size = 0;
    int grey = grey::black;
    Centipoints tracking = 0;
};

struct Style {
    // Scale of all sizes and vertical spaces, in thousandths.
    std::int32_t permille = 1000;
    Centipoints block_gap = points(20);
    // Above and below a movement's row.
    Centipoints row_padding = points(7);
    Centipoints log_width = points(76);
    // By block: its cues are not printed.
    std::vector<bool> without_cues;

    [[nodiscard]] Centipoints space(double value) const {
        return static_cast<Centipoints>(std::int64_t{points(value)} * permille / 1000);
    }
    [[nodiscard]] Centipoints size(double value) const {
        return std::max(space(value), smallest_size);
    }
    [[nodiscard]] Centipoints log_left() const { return grid::right - log_width; }
    // Where the cells end.
    [[nodiscard]] Centipoints cells_right() const { return log_left() - grid::gutter; }

    [[nodiscard]] TextStyle head() const { return {Face::condensed_bold, size(18)}; }
    [[nodiscard]] TextStyle name() const { return {Face::condensed_bold, size(14.5)}; }
    [[nodiscard]] TextStyle big() const { return {Face::condensed_bold, size(21)}; }
    [[nodiscard]] TextStyle load() const { return {Face::medium, size(10)}; }
    [[nodiscard]] TextStyle plain() const { return {Face::regular, size(9.5)}; }
    [[nodiscard]] TextStyle number() const { return {Face::medium, size(9.5)}; }
    [[nodiscard]] TextStyle cue() const { return {Face::condensed_regular, size(10), grey::soft}; }
    [[nodiscard]] TextStyle strong_cue() const {
        return {Face::condensed_bold, size(10), grey::black};
    }
    [[nodiscard]] TextStyle unit() const { return {Face::regular, size(8.5), grey::soft}; }
    [[nodiscard]] TextStyle label() const { return {Face::medium, size(8.5), grey::label}; }
    // Words in capitals.
    [[nodiscard]] TextStyle capitals() const {
        return {Face::medium, smallest_size, grey::label, points(0.7)};
    }
    [[nodiscard]] Centipoints tick_box() const { return space(13); }
};

// Height of capitals and figures, and room below the baseline, for a size
// (Roboto: capital height 1456 and descenders of 434 of 2048 units).
[[nodiscard]] constexpr Centipoints capital_height(Centipoints size) {
    return size * 711 / 1000;
}
[[nodiscard]] constexpr Centipoints descent(Centipoints size) {
    return size * 212 / 1000;
}
[[nodiscard]] constexpr Centipoints line_height(Centipoints size) {
    return size * 1190 / 1000;
}
// From a line's top to its baseline.
[[nodiscard]] constexpr Centipoints ascent(Centipoints size) {
    return size * 940 / 1000;
}

}  // namespace stave::card::layout
