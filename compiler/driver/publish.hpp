// `stave publish`: a folder that any web server can serve, with cards, feeds, a page for each
// feed and an index.
//
// The folder holds what the files of this run make and nothing that an earlier run made
// beyond it. Files that are private stand below an address of their own and are named nowhere
// else. While any file has an error nothing is written.
#pragma once

#include <optional>

#include "compiler/driver/build.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// Gives the base its stroke at the end, or says why it is none.
[[nodiscard]] std::optional<Diagnostic> complete_base(Options& options);

// Adds the problems it finds to `loaded`, and the lists of private addresses, as they are then,
// to its sources. Nothing where nothing was written.
std::optional<Built> publish(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
                             Environment& environment);

}  // namespace stave::driver
