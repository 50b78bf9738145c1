// A snapshot to the file of its feed.
#pragma once

#include <string>
#include <vector>

#include "compiler/analysis/analyse.hpp"
#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// Adds the feeds, each with what the feed that is in its place knows of earlier builds.
// Nothing is added where no session has a date. Refuses places that hold something else. The
// snapshot has no errors, but for those of its cards.
void add_feeds(const analysis::Snapshot& snapshot, const std::string& folder,
               const Options& options, zones::ZoneLoader& zones, const Environment& environment,
               OutputSet& outputs, std::vector<Diagnostic>& problems);

}  // namespace stave::driver
