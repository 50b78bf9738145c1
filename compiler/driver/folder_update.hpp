// Brings a folder that Stave writes into up to date: writes what has changed, takes away what
// is no longer made, and keeps the list of both.
//
// Only a file that still holds what Stave wrote there is taken away. Whatever moment a run
// is killed at, each file is whole and the list covers it, so the next run mends.
#pragma once

#include <expected>
#include <functional>
#include <ostream>
#include <string>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/manifest.hpp"
#include "compiler/driver/output_set.hpp"

namespace stave::driver {

struct FolderUpdate {
    std::string folder;
    // Within it; they are made even if nothing goes there.
    std::vector<std::string> subfolders;
    // Whether the run holds the folder's lock, so that all half files there are those of runs
    // that are over.
    bool is_alone = false;
    // Whether the run makes everything of this kind anew, so that what it does not make has
    // no more reason to be there. Asked for what is on the list and not in the set.
    std::function<bool(const std::string& name, const ManifestEntry& entry)> covers;
    // Whether a file may be written over that does not hold what Stave wrote there: something
    // else is on the list, or nothing. Called by several threads.
    std::function<bool(const Output& output, std::string_view before, bool is_listed)> may_replace;
};

// Paths from the folder.
struct Cleared {
    std::vector<std::string> removed;
    // No longer made, but changed by somebody: theirs from now on.
    std::vector<std::string> left;
};

// The list as an earlier run left it; an empty one where there is none.
[[nodiscard]] std::expected<Manifest, Diagnostic> read_list_of(const std::string& folder);

[[nodiscard]] std::expected<Cleared, Diagnostic> update_folder(const FolderUpdate& update,
                                                               OutputSet& outputs);

// A line for each of both.
void say_cleared(const Cleared& cleared, const std::string& folder, std::ostream& out);

}  // namespace stave::driver
