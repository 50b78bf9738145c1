// The coach's own words in a session, for those who search them.
#pragma once

#include <string>
#include <vector>

#include "compiler/program/program.hpp"

namespace stave::program {

struct SaidText {
    // The line of the session, block or movement that it belongs to.
    Span span;
    // Never null; lives as long as the session.
    const std::string* text = nullptr;
};

// Titles, cues, faults, counts, notes, stops, options and what is done while resting, in the order
// of the session; none of them empty. Names of movements are not among them, nor what stands below
// substitutes.
[[nodiscard]] std::vector<SaidText> said_texts(const Session& session);

// Of one movement, or of a substitute.
[[nodiscard]] std::vector<SaidText> said_texts(const Item& item);

}  // namespace stave::program
