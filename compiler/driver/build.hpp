// `stave build`: cards and feeds of all files, or nothing. `stave preview`: pictures of the
// cards and nothing else.
//
// Everything is made in memory first; while any file has an error nothing is
// written, so what an earlier build left stays whole.
#pragma once

#include <optional>
#include <set>
#include <string>

#include "compiler/driver/card_outputs.hpp"
#include "compiler/driver/folder_lock.hpp"
#include "compiler/driver/folder_update.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/made_memory.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// What stands in the folder now, and what was taken away.
struct Built {
    OutputSet outputs;
    Cleared cleared;
    // What was said behind the lines of both.
    std::string summaries;
    // Held for as long as what was made is looked at.
    std::optional<FolderLock> lock;
};

// For who builds again and again.
struct Rebuild {
    // Paths of the outputs of other sources, which none of these may take.
    std::set<std::string> taken;
    CardTools tools;
    MadeMemory memory;
    // Of the folder, as the last build left it.
    KnownList list;
};

// Both add the problems they find to `loaded`. Nothing where nothing was written.
std::optional<Built> build(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
                           Environment& environment, Rebuild* rebuild = nullptr);
void preview(const Options& options, Loaded& loaded, Environment& environment);

}  // namespace stave::driver
