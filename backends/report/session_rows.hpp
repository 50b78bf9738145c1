// The rows of a session as its athlete lives it: one for each set of a movement
// on a side and one for each rest, in words.
#pragma once

#include <string>
#include <vector>

#include "backends/report/report.hpp"

namespace stave::report {

struct Row {
    const timeline::Entry* entry = nullptr;
    // "C2": the block's letter and the movement's place in it.
    std::string label;
    // "round 2 of 3", "set 1 of 4", or "" for a single set.
    std::string turn;
    std::string name;
    // "left", "right" or "".
    std::string side;
    std::string dose;
    std::string load;
};

[[nodiscard]] Row make_row(const program::Session& session, const timeline::Entry& entry);

// "1:05", "1:02:30".
[[nodiscard]] std::string clock_text(Ratio seconds);

// No-break spaces as spaces: in a terminal and in JSON people search for "2 min".
[[nodiscard]] std::string with_plain_blanks(std::string text);

}  // namespace stave::report
