// The look of a card in numbers: a sheet's sizes and spaces as far as they have been
// made smaller to fit, and the greys. All of it hangs on a Style, which the fitting
// in layout.cpp makes smaller step by step.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "backends/card/layout_sheet.hpp"
#include "backends/card/page.hpp"

namespace stave::card::layout {

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

struct TextStyle {
    Face face = Face::regular;
    Centipoints size = 0;
    int grey = grey::black;
    Centipoints tracking = 0;
};

struct Style {
    // Never null; one of the five of layout_sheet.hpp.
    const Sheet* sheet = &sheet_of(Paper::a4);
    // Scale of all sizes and vertical spaces, in thousandths.
    std::int32_t permille = 1000;
    Centipoints block_gap = 0;
    // Above and below a movement's row.
    Centipoints row_padding = 0;
    // 0 where there is no log.
    Centipoints log_width = sheet->log_width;
    // Figures that help but are not needed: the bar of patterns.
    bool has_figures = true;
    // What the card stands on: 1 or 2.
    int page_count = 1;
    // By block: its cues are not printed.
    std::vector<bool> without_cues;

    // A vertical space that is `value` points on an A4 card.
    [[nodiscard]] Centipoints space(double value) const {
        const std::int64_t here = std::int64_t{points(value)} * sheet->spacing / 1000;
        return static_cast<Centipoints>(here * permille / 1000);
    }
    // A stroke's width or a gap between words that is `value` points on an A4 card.
    [[nodiscard]] Centipoints across(double value) const {
        return static_cast<Centipoints>(std::int64_t{points(value)} * sheet->stroke / 1000);
    }
    [[nodiscard]] Centipoints size(Centipoints wanted) const {
        const std::int64_t scaled = std::int64_t{wanted} * permille / 1000;
        return std::max(static_cast<Centipoints>(scaled), smallest());
    }
    [[nodiscard]] Centipoints smallest() const { return sheet->type.least; }
    [[nodiscard]] const Grid& grid() const { return sheet->grid; }
    [[nodiscard]] bool has_log() const { return log_width > 0; }
    // Where the log or, without one, the page ends.
    [[nodiscard]] Centipoints log_left() const { return grid().right - log_width; }
    // Where the cells end.
    [[nodiscard]] Centipoints cells_right() const {
        return has_log() ? log_left() - grid().gutter : grid().right;
    }

    [[nodiscard]] TextStyle head() const { return {Face::condensed_bold, size(sheet->type.head)}; }
    [[nodiscard]] TextStyle name() const { return {Face::condensed_bold, size(sheet->type.name)}; }
    [[nodiscard]] TextStyle big() const { return {Face::condensed_bold, size(sheet->type.big)}; }
    [[nodiscard]] TextStyle load() const { return {Face::medium, size(sheet->type.load)}; }
    [[nodiscard]] TextStyle plain() const { return {Face::regular, size(sheet->type.plain)}; }
    [[nodiscard]] TextStyle number() const { return {Face::medium, size(sheet->type.plain)}; }
    [[nodiscard]] TextStyle cue() const {
        return {Face::condensed_regular, size(sheet->type.cue), grey::soft};
    }
    [[nodiscard]] TextStyle strong_cue() const {
        return {Face::condensed_bold, size(sheet->type.cue), grey::black};
    }
    [[nodiscard]] TextStyle unit() const {
        return {Face::regular, size(sheet->type.unit), grey::soft};
    }
    [[nodiscard]] TextStyle label() const {
        return {Face::medium, size(sheet->type.unit), grey::label};
    }
    // The smallest words there are, and those of them in capitals. Readers of PDFs take a
    // tenth of the size between letters for a blank between words (poppler).
    [[nodiscard]] TextStyle small() const { return {Face::regular, smallest(), grey::soft}; }
    [[nodiscard]] TextStyle capitals() const {
        return {Face::medium, smallest(), grey::label, smallest() * 2 / 25};
    }
    // 0 where nothing is ticked; else with room for a letter.
    [[nodiscard]] Centipoints tick_box() const {
        if (sheet->tick_box == 0) return 0;
        const std::int64_t scaled = std::int64_t{sheet->tick_box} * permille / 1000;
        return std::max(static_cast<Centipoints>(scaled), points(9));
    }
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
