// A snapshot to the files of its feeds.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compiler/analysis/analyse.hpp"
#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// Bytes of a feed that is read back: far more than a season needs, far less than a disk.
inline constexpr std::size_t largest_feed = 1'000'000'000;

// Adds one feed, which goes on from the one that is in its place and, where `previous` is
// not empty, from the one of that path. Nothing is added where it has no event and never had
// one. Refuses feeds that cannot be read, are foreign, damaged or of a later version.
[[nodiscard]] std::optional<Diagnostic> add_feed(
    const calendar::Feed& feed, const std::string& folder, const std::string& previous,
    zones::ZoneLoader& zones, const Environment& environment, OutputSet& outputs);

// Adds all feeds of a snapshot that has no errors, but for those of its cards; the one that it
// is for goes on from `--previous`.
void add_feeds(const analysis::Snapshot& snapshot, const std::string& folder,
               const Options& options, zones::ZoneLoader& zones, const Environment& environment,
               OutputSet& outputs, std::vector<Diagnostic>& problems);

// Adds the feeds of its athletes, each in a folder of their own.
void add_personal_feeds(const analysis::Snapshot& snapshot, const std::string& folder,
                        const Options& options, zones::ZoneLoader& zones,
                        const Environment& environment, OutputSet& outputs,
                        std::vector<Diagnostic>& problems);

// Notes of feeds that some calendar programs no longer read whole.
void warn_of_large_feeds(const OutputSet& outputs, std::vector<Diagnostic>& problems);

}  // namespace stave::driver
