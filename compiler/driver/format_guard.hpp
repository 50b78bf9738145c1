// What is asked before `stave format` changes a file.
#pragma once

#include <string>

#include "compiler/analysis/analyse.hpp"

namespace stave::driver {

// One file as it is read for formatting: its own lines alone, nothing included.
struct FormattedFile {
    analysis::Snapshot snapshot;
    // Empty, as is `meaning`, where a line cannot be read.
    std::string formatted;
    // All that the file says, layout aside, for comparing.
    std::string meaning;
};

[[nodiscard]] FormattedFile read_formatted(const std::string& shown, std::string text);

// Whether the second, which the first was formatted to, can be read, says the same and
// is formatted to itself.
[[nodiscard]] bool says_the_same(const FormattedFile& before, const FormattedFile& after);

// Both of them from their texts.
[[nodiscard]] bool means_the_same(const std::string& before, const std::string& after);

}  // namespace stave::driver
