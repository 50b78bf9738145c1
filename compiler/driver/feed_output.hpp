// A snapshot to the file of its feed.
#pragma once

#include <optional>
#include <string>

#include "compiler/analysis/analyse.hpp"
#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// Adds the feed, with what the feed that is in its place knows of earlier builds. Nothing is
// added where no session has a date. Refuses a place that holds something else. The snapshot
// has no errors, but for those of its cards.
[[nodiscard]] std::optional<Diagnostic> add_feed(const analysis::Snapshot& snapshot,
                                                 const std::string& folder, const Options& options,
                                                 zones::ZoneLoader& zones,
                                                 const Environment& environment,
                                                 OutputSet& outputs);

}  // namespace stave::driver
