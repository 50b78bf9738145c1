// A snapshot to the file of its feed.
#pragma once

#include <string>
#include <vector>

#include "compiler/analysis/analyse.hpp"
#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// Adds one feed, with what the feed that is in its place knows of earlier builds. Refuses a
// place that holds something else.
[[nodiscard]] std::optional<Diagnostic> add_feed(const calendar::Feed& feed,
                                                 const std::string& folder,
                                                 const Environment& environment,
                                                 OutputSet& outputs);

// Adds all feeds of a snapshot that has no errors, but for those of its cards; none where no
// session has a date.
void add_feeds(const analysis::Snapshot& snapshot, const std::string& folder,
               const Options& options, zones::ZoneLoader& zones, const Environment& environment,
               OutputSet& outputs, std::vector<Diagnostic>& problems);

}  // namespace stave::driver
