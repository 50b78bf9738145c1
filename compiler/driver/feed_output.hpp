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
#include "compiler/driver/recall.hpp"
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

// Of snapshots that have no errors. What it is made with must outlive it.
class FeedMaker {
public:
    FeedMaker(const Options& options, zones::ZoneLoader& zones, const Environment& environment,
              OutputSet& outputs, std::vector<Diagnostic>& problems);

    // Feeds that go on from what an earlier build left of the same are not made again.
    void go_on_from(const Recall& recall) { recall_ = &recall; }

    // `source` is that of the snapshot, as the folder's list knows it. Adds all feeds but those of
    // athletes; the one that it is for goes on from `--previous`.
    void add_feeds(const analysis::Snapshot& snapshot, const std::string& folder,
                   const std::string& source);
    // Adds the feeds of its athletes, each in a folder of their own.
    void add_personal_feeds(const analysis::Snapshot& snapshot, const std::string& folder,
                            const std::string& source);

private:
    struct Job;

    void add(const Job& job);
    [[nodiscard]] std::optional<Diagnostic> make(const Job& job,
                                                 const std::optional<Recalled>& recalled);

    const Options& options_;
    zones::ZoneLoader& zones_;
    const Environment& environment_;
    OutputSet& outputs_;
    std::vector<Diagnostic>& problems_;
    // Null where nothing is remembered.
    const Recall* recall_ = nullptr;
};

// Notes of feeds that some calendar programs no longer read whole.
void warn_of_large_feeds(const OutputSet& outputs, std::vector<Diagnostic>& problems);

}  // namespace stave::driver
