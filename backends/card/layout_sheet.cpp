#include "backends/card/layout_sheet.hpp"

namespace stave::card::layout {

namespace {

// To be filled in and ticked at arm's length.
Sheet a4() {
    Sheet sheet;
    sheet.grid = {.left = points(36),
                  .right = points(559.28),
                  .top = points(36),
                  .bottom = points(808.89),
                  .tab_width = points(34),
                  .bracket = points(73.5),
                  .label = points(82),
                  .name = points(103),
                  .cells = points(302),
                  .fact_label = points(390),
                  .fact_value = points(430),
                  .gutter = points(12)};
    sheet.type = {
        .titles = {points(40), points(32), points(25), points(20), points(16)},
        .letter = points(21),
        .head = points(18),
        .name = points(14.5),
        .list_name = points(12.5),
        .big = points(21),
        .pair = points(17),
        .word = points(13),
        .load = points(10),
        .fact = points(13),
        .bar = points(11),
        .plain = points(9.5),
        .cue = points(10),
        .unit = points(8.5),
        .least = points(7),
    };
    sheet.tick_box = points(13);
    sheet.log_width = points(76);
    sheet.narrow_log_width = points(62);
    sheet.least_name_width = points(118);
    sheet.widest_cell = points(62);
    sheet.widest_load = points(60);
    sheet.code_module = points(2);
    sheet.cautions_width = points(372);
    sheet.circle_pitch = points(22.6);
    sheet.circle_radius = points(8.5);
    sheet.notes_left = points(350);
    return sheet;
}

// Wider and shorter than A4: what is to be written stands further to the right,
// and white between the rows gives way first.
Sheet letter() {
    Sheet sheet = a4();
    sheet.grid.right = points(576);
    sheet.grid.bottom = points(759);
    sheet.grid.cells = points(314);
    sheet.grid.fact_label = points(402);
    sheet.grid.fact_value = points(442);
    sheet.spacing = 960;
    sheet.log_width = points(80);
    sheet.cautions_width = points(384);
    sheet.notes_left = points(358);
    return sheet;
}

// A notebook's page: a narrow rail, a short log.
Sheet a5() {
    Sheet sheet;
    sheet.grid = {.left = points(29),
                  .right = points(390.53),
                  .top = points(29),
                  .bottom = points(566),
                  .tab_width = points(24),
                  .bracket = points(58.5),
                  .label = points(65),
                  .name = points(82),
                  .cells = points(214),
                  .fact_label = points(256),
                  .fact_value = points(289),
                  .gutter = points(8)};
    sheet.type = {
        .titles = {points(27), points(22), points(18), points(15), points(13)},
        .letter = points(15),
        .head = points(13.5),
        .name = points(11.5),
        .list_name = points(10.5),
        .big = points(16),
        .pair = points(13.5),
        .word = points(11),
        .load = points(8.5),
        .fact = points(10.5),
        .bar = points(9.5),
        .plain = points(8.2),
        .cue = points(8.5),
        .unit = points(7.5),
        .least = points(7),
    };
    sheet.spacing = 740;
    sheet.tick_box = points(11);
    sheet.log_width = points(54);
    sheet.narrow_log_width = points(46);
    sheet.least_name_width = points(88);
    sheet.widest_cell = points(50);
    sheet.widest_load = points(46);
    sheet.code_module = points(1.5);
    sheet.cautions_width = points(264);
    sheet.circle_pitch = points(17.6);
    sheet.circle_radius = points(6.8);
    sheet.notes_left = points(268);
    return sheet;
}

// A pocket's page: to tick, not to write on.
Sheet a6() {
    Sheet sheet;
    sheet.grid = {.left = points(20),
                  .right = points(277.64),
                  .top = points(20),
                  .bottom = points(400),
                  .tab_width = points(16),
                  .bracket = points(38.5),
                  .label = points(46),
                  .name = points(60.5),
                  .cells = points(152),
                  .fact_label = points(190),
                  .fact_value = points(215),
                  .gutter = points(6)};
    sheet.type = {
        .titles = {points(22), points(18), points(15), points(13), points(11)},
        .letter = points(12),
        .head = points(11.5),
        .name = points(10.2),
        .list_name = points(9.5),
        .big = points(13.5),
        .pair = points(11.5),
        .word = points(9.5),
        .load = points(8),
        .fact = points(9),
        .bar = points(9),
        .plain = points(7.6),
        .cue = points(7.8),
        .unit = points(7),
        .least = points(7),
    };
    sheet.spacing = 560;
    sheet.tick_box = points(10.5);
    sheet.least_name_width = points(64);
    sheet.widest_cell = points(46);
    sheet.widest_load = points(38);
    sheet.has_fact_column = false;
    sheet.has_time_bar = false;
    sheet.has_rail = false;
    sheet.code_module = points(1.6);
    sheet.cautions_width = points(257.64);
    sheet.circle_pitch = points(24.1);
    sheet.circle_radius = points(7.6);
    return sheet;
}

// A wall's page, read from three metres by many at once.
Sheet a3() {
    Sheet sheet;
    sheet.grid = {.left = points(48),
                  .right = points(793.89),
                  .top = points(48),
                  .bottom = points(1146),
                  .tab_width = points(58),
                  .bracket = points(119),
                  .label = points(132),
                  .name = points(172),
                  .cells = points(500),
                  .fact_label = points(520),
                  .fact_value = points(586),
                  .gutter = points(18)};
    sheet.type = {
        .titles = {points(72), points(58), points(46), points(36), points(28)},
        .letter = points(36),
        .head = points(28),
        .name = points(24),
        .list_name = points(20),
        .big = points(36),
        .pair = points(30),
        .word = points(22),
        .load = points(17),
        .fact = points(20),
        .bar = points(17),
        .plain = points(15),
        .cue = points(16),
        .unit = points(14),
        .least = points(12),
    };
    sheet.spacing = 1500;
    sheet.stroke = 1500;
    sheet.least_name_width = points(200);
    sheet.widest_cell = points(90);
    sheet.widest_load = points(86);
    sheet.is_written_on = false;
    sheet.code_module = points(3.2);
    sheet.cautions_width = points(560);
    sheet.most_permille = 1600;
    return sheet;
}

Sheet with_size(Paper paper, Sheet sheet) {
    const PaperSize size = size_of(paper);
    sheet.paper = paper;
    sheet.width = size.width;
    sheet.height = size.height;
    return sheet;
}

}  // namespace

const Sheet& sheet_of(Paper paper) {
    static const Sheet sheets[]{with_size(Paper::a4, a4()), with_size(Paper::letter, letter()),
                                with_size(Paper::a5, a5()), with_size(Paper::a6, a6()),
                                with_size(Paper::a3, a3())};
    return sheets[static_cast<std::size_t>(paper)];
}

}  // namespace stave::card::layout
