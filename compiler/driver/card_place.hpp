// Where the cards of a snapshot go, and for whom they are made.
#pragma once

#include <string>

#include "compiler/analysis/analyse.hpp"
#include "compiler/driver/readers.hpp"

namespace stave::driver {

// Whose cards go where.
struct CardPlace {
    analysis::Snapshot* snapshot = nullptr;
    std::string folder;
    // The source as the folder's list knows it; see Output.
    std::string source;
    // See `make_pages`.
    std::string lent_link;
    // Of an athlete only their own sessions have cards.
    Reader reader = {};
};

}  // namespace stave::driver
