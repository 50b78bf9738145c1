// Makes mends in a text until none is left.
#pragma once

#include <cstddef>
#include <functional>
#include <string>

#include "compiler/analysis/analyse.hpp"

namespace stave::driver {

// Analyses a text; keeps at most so many of its problems.
using Analyse = std::function<analysis::Snapshot(const std::string& text, std::size_t kept)>;

struct Mended {
    std::string text;
    std::size_t count = 0;
    // Of the text as it is now.
    analysis::Snapshot snapshot;
};

// Makes all sure fixes, again and again while that leads to others. A fix after which its
// problem stands at its place again, or that others undo, is neither made nor counted.
[[nodiscard]] Mended make_mends(const std::string& text, const Analyse& analyse);

}  // namespace stave::driver
