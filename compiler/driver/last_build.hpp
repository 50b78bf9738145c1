// What `build` or `publish` read, made and said, so that the same run over the same files is
// known to be done and says the same again.
//
// Kept outside of what is built, in the user's own cache (XDG Base Directory Specification),
// since what was said tells of people and their private addresses. It may be lost at any time:
// then all is made anew. The day is part of what is asked for: feeds drop entries with time.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/driver/environment.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/output_set.hpp"

namespace stave::driver {

struct LastBuild {
    // A file as it stood when the build was over.
    struct Made {
        // Empty for the folder's list, of which nothing is said.
        std::string kind;
        std::string path;
        std::uintmax_t size = 0;
        // Ticks of the clock of files.
        std::int64_t saved = 0;
        // Where the file may be saved once more without a later time, else empty.
        std::string hash;
    };

    SourceHashes sources;
    std::vector<Made> outputs;
    // Behind the lines of the outputs.
    std::string summaries;
    std::string problems;
};

// Of one command line, as it is given here and today.
class BuildMemory {
public:
    BuildMemory(const std::vector<std::string>& words, const Options& options,
                const Environment& environment);

    // The last build, where every file is as it was read or left.
    [[nodiscard]] std::optional<LastBuild> recall() const;

    // What cannot be kept is made anew next time.
    void keep(const SourceHashes& sources, const OutputSet& outputs, const std::string& list,
              std::string summaries, std::string problems) const;

private:
    // Empty where nothing is kept.
    std::string folder_;
    std::string path_;
};

}  // namespace stave::driver
