// Brings a folder that Stave writes into up to date: writes what has changed, takes away what
// is no longer made, and keeps the list of both.
//
// Only a file that still holds what Stave wrote there is taken away. Whatever moment a run
// is killed at, each file is whole and the list covers it, so the next run mends.
#pragma once

#include <expected>
#include <functional>
#include <memory>
#include <ostream>
#include <string>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/manifest.hpp"
#include "compiler/driver/output_set.hpp"

namespace stave::driver {

// The list as an earlier run left it; an empty one where there is none.
struct FolderList {
    std::string text;
    Manifest files;
    // The text is what `to_json` makes of them.
    bool is_written_so = false;
};
using KnownList = std::shared_ptr<const FolderList>;

struct FolderUpdate {
    std::string folder;
    // The list as it was found or left last; may be null.
    KnownList known = nullptr;
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
    // As it stands now.
    KnownList list;
};

// Never null. `known` again where its text still stands there, since a long one takes long to read.
[[nodiscard]] std::expected<KnownList, Diagnostic> read_list_of(const std::string& folder,
                                                                const KnownList& known = nullptr);

[[nodiscard]] std::expected<Cleared, Diagnostic> update_folder(const FolderUpdate& update,
                                                               OutputSet& outputs);

// A line for each of both.
void say_cleared(const Cleared& cleared, const std::string& folder, std::ostream& out);

}  // namespace stave::driver
