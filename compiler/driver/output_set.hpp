// The files that one run makes: gathered in memory, then written together.
#pragma once

#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"

namespace stave::driver {

struct Output {
    // What a person calls it: card, feed, picture.
    std::string_view kind;
    std::string bytes;
    // Whether the file holds these bytes already; known once they are written.
    bool as_before = false;
};

// By path.
using OutputSet = std::map<std::string, Output>;

// A problem where the path has an output already.
[[nodiscard]] std::optional<Diagnostic> add_output(OutputSet& outputs, std::string_view kind,
                                                   const std::string& path, std::string bytes);

// Writes what has changed, all of it or, where a place cannot be written, nothing. Makes the
// folders, and removes from them what killed runs left.
[[nodiscard]] std::optional<Diagnostic> write_changed(OutputSet& outputs,
                                                      const std::vector<std::string>& folders);

// A line for each file.
void say_outputs(const OutputSet& outputs, std::ostream& out);

}  // namespace stave::driver
