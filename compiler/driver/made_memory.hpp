// What the builds of one process have made of what, so that the same is not made again while its
// files stand as they were left.
#pragma once

#include <chrono>
#include <mutex>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "backends/calendar/feed.hpp"
#include "compiler/driver/file_stamp.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/source/wide_hash.hpp"

namespace stave::driver {

// Of a key, which is a hash already.
struct LowHalf {
    std::size_t operator()(const WideHash& key) const { return key.low; }
};

class MadeMemory {
public:
    // A card with its pictures, or a feed, on its way to the disk.
    struct Made {
        // Of whom it is forgotten when it no longer comes up; see Output.
        std::string source;
        std::vector<std::string> paths;
        std::string summary;
        // When the same comes of the same.
        std::chrono::sys_seconds from = std::chrono::sys_seconds::min();
        std::chrono::sys_seconds until = std::chrono::sys_seconds::max();
    };
    struct Kept {
        struct File {
            std::string_view kind;
            KnownFile known;
        };
        Made made;
        std::vector<File> files;
        bool has_come_up = true;
    };

    // Those of one feed, by the keys of their issues: where one of them changes, the others are
    // not made again.
    struct FeedEvents {
        // As in Made.
        std::string source;
        std::unordered_map<WideHash, calendar::Event, LowHalf> by_key;
    };

    // A build begins: what one that failed has noted is none.
    void begin();
    // What was made of it, if its files stand as they were left; else null. Can be called by
    // several threads.
    [[nodiscard]] const Kept* find(const WideHash& key, std::chrono::sys_seconds now);
    // Of what has been added to the outputs.
    void note(const WideHash& key, Made made) { noted_.emplace_back(key, std::move(made)); }
    // The outputs have been written. What these sources made and what has not come up is forgotten.
    void keep(const OutputSet& outputs, const std::set<std::string>& sources);

    // Of the feed of that path, as it was last made.
    [[nodiscard]] FeedEvents& events(const std::string& path) { return events_[path]; }

private:
    std::unordered_map<WideHash, Kept, LowHalf> kept_;
    std::unordered_map<std::string, FeedEvents> events_;
    std::vector<std::pair<WideHash, Made>> noted_;
    // Of `kept_`, while several threads find.
    std::mutex mutex_;
};

// Notes the files as they stand; a problem where one of the paths has an output already.
[[nodiscard]] std::optional<Diagnostic> add_standing(OutputSet& outputs,
                                                     const MadeMemory::Kept& kept);

}  // namespace stave::driver
