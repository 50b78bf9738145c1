// `stave build`: cards and feeds of all files, or nothing. `stave preview`: pictures of the
// cards and nothing else.
//
// Everything is made in memory first; while any file has an error nothing is
// written, so what an earlier build left stays whole.
#pragma once

#include "compiler/driver/load.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// Both add the problems they find to `loaded`.
void build(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
           Environment& environment);
void preview(const Options& options, Loaded& loaded, Environment& environment);

}  // namespace stave::driver
