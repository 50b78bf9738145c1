// The files that one run makes: gathered in memory, then written together.
#pragma once

#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/files.hpp"

namespace stave::driver {

struct Output {
    // What a person calls it: card, feed, picture.
    std::string_view kind;
    std::string bytes;
    // The source it is made from, as the folder's list knows it; empty where it is made from all.
    std::string source;
    // See ManifestEntry::feed_of.
    std::string feed_of = {};
    // Whether the file holds these bytes already; known once they are written.
    bool as_before = false;
};

// By path.
using OutputSet = std::map<std::string, Output>;

// A problem where the path has an output already.
[[nodiscard]] std::optional<Diagnostic> add_output(OutputSet& outputs, std::string_view kind,
                                                   const std::string& path, std::string bytes);

// Whatever has no source yet was made from this one.
void say_source(OutputSet& outputs, const std::string& source);

// Makes the folders, and removes from them what killed runs left.
[[nodiscard]] std::optional<Diagnostic> make_ready(const std::vector<std::string>& folders);

// Adds what has changed to the batch, which then waits to be put in place.
[[nodiscard]] std::optional<Diagnostic> add_changed(OutputSet& outputs, FileBatch& batch);

[[nodiscard]] std::string output_line(std::string_view kind, const std::string& path,
                                      bool as_before);

// A line for each file.
void say_outputs(const OutputSet& outputs, std::ostream& out);

}  // namespace stave::driver
