// A rota for the wall: one table on a page that lies across, in type as large as its rows allow.
#pragma once

#include <string>
#include <vector>

#include "backends/card/fonts.hpp"
#include "backends/card/page.hpp"

namespace stave::card {

struct RotaSheet {
    std::string title;
    std::string block;
    // How many people, how long.
    std::string facts;
    // What stands over the columns.
    std::vector<std::string> heads;
    // Of each interval, column by column, who is there; each as long as `heads`.
    std::vector<std::vector<std::vector<std::string>>> rows;
};

// One page, or more where the rows do not fit one in type of 9 pt; the head stands on each. A name
// that is wider than its column in type of 8 pt is cut. At least one column.
[[nodiscard]] std::vector<Page> lay_out_rota(const RotaSheet& sheet, Fonts& fonts);

}  // namespace stave::card
