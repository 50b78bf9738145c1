// What a card looks like on each paper: where things stand, how large they are,
// and which parts there are at all.
//
// Lengths are those of a card with room to spare; the fitting in layout.cpp makes
// sizes and vertical spaces smaller (layout_style.hpp).
#pragma once

#include <array>
#include <cstdint>

#include "backends/card/page.hpp"
#include "backends/card/paper.hpp"

namespace stave::card::layout {

// The x positions that everything stands on, and the page's edges.
struct Grid {
    Centipoints left = 0;
    Centipoints right = 0;
    Centipoints top = 0;
    Centipoints bottom = 0;
    // The black tab with a block's letter: from `left`, this wide.
    Centipoints tab_width = 0;
    // The bracket of a superset or circuit.
    Centipoints bracket = 0;
    // "C1" and the block's head.
    Centipoints label = 0;
    // Movement names and what belongs to them.
    Centipoints name = 0;
    // Sets or rounds, where they need no more room than usual.
    Centipoints cells = 0;
    // The header's facts: their labels, their values.
    Centipoints fact_label = 0;
    Centipoints fact_value = 0;
    // Between two columns of text.
    Centipoints gutter = 0;
};

// Sizes of type. Three levels: the number to do, the thing to do, and how.
struct Type {
    // A title takes the first of these with which it is short enough.
    std::array<Centipoints, 5> titles{};
    Centipoints letter = 0;
    Centipoints head = 0;
    Centipoints name = 0;
    Centipoints list_name = 0;
    // Figures of a cell: alone, two of them, a word.
    Centipoints big = 0;
    Centipoints pair = 0;
    Centipoints word = 0;
    Centipoints load = 0;
    Centipoints fact = 0;
    // Letters over the time bar.
    Centipoints bar = 0;
    Centipoints plain = 0;
    Centipoints cue = 0;
    Centipoints unit = 0;
    // No type is smaller, ever.
    Centipoints least = 0;
};

struct Sheet {
    Paper paper = Paper::a4;
    Centipoints width = 0;
    Centipoints height = 0;
    Grid grid;
    Type type;
    // Of vertical spaces, in thousandths of those of A4.
    std::int32_t spacing = 1000;
    // Of strokes and of gaps between words, likewise.
    std::int32_t stroke = 1000;
    Centipoints tick_box = 0;
    // Width of the log; 0 where nothing is written down beside a movement.
    Centipoints log_width = 0;
    Centipoints narrow_log_width = 0;
    Centipoints least_name_width = 0;
    Centipoints widest_cell = 0;
    Centipoints widest_load = 0;
    // Whether athletes tick and write on it.
    bool is_written_on = true;
    // Whether facts stand in a column of their own beside the title.
    bool has_fact_column = true;
    bool has_time_bar = true;
    // Whether a block's minutes stand below its letter, or at the end of its head.
    bool has_rail = true;
    // The side of one module of a square code, at least `least_module` (qr.hpp): a card is
    // held a hand's breadth from the telephone, a wall's is read from a step away.
    Centipoints code_module = 0;
    // Width of the footer's cautions.
    Centipoints cautions_width = 0;
    // The circles of the effort scale; where notes begin beside them.
    Centipoints circle_pitch = 0;
    Centipoints circle_radius = 0;
    Centipoints notes_left = 0;
    // How far type may grow to fill the page, in thousandths.
    std::int32_t most_permille = 1000;
};

[[nodiscard]] const Sheet& sheet_of(Paper paper);

}  // namespace stave::card::layout
