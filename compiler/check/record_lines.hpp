// The lines of what stands beside sessions and definitions: athletes, squads, kits, plans.
#pragma once

#include <vector>

#include "compiler/syntax/document.hpp"

namespace stave::check {

// The line that opens one and those below it, blanks and remarks left out. They must
// outlive it.
struct RecordLines {
    const syntax::Line* head = nullptr;
    std::vector<const syntax::Line*> lines;
};

// Those of a file, in order.
struct Records {
    std::vector<RecordLines> plans;
    std::vector<RecordLines> athletes;
    std::vector<RecordLines> squads;
    std::vector<RecordLines> kits;
};

}  // namespace stave::check
