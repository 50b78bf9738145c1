// Whose the files of a folder are, by the hashes that its list has for their sources: which file
// near by that is, and whether it makes them still.
//
// A file that is moved or renamed leaves a hash that nothing has, and one that is changed may no
// longer make what it made; so neither keeps what another file makes now.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "compiler/driver/environment.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/manifest.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// A file as the list of a folder knows it: by the way to it, so that both can be moved
// together. One standard input is not another.
[[nodiscard]] std::string origin_of(const std::string& folder, const std::string& source);

class SourceOwners {
public:
    // Reads the list of `options.out`. What is wrong with the list is told when the folder is
    // written. All four must outlive it.
    SourceOwners(const Options& options, const Loaded& loaded, zones::ZoneLoader& zones,
                 Environment& environment);

    [[nodiscard]] const Manifest& list() const { return list_; }
    // Whether it is a source of the run.
    [[nodiscard]] bool is_own(const std::string& origin) const { return own_.contains(origin); }

    // The origin of what stands in the output's path now, if that is a known one and none of the
    // run's sources.
    [[nodiscard]] std::optional<std::string> other_origin(const std::string& path,
                                                          const Output& output) const;

    // Where the file of that origin is, if it is not far away. Each is looked for once.
    [[nodiscard]] const std::optional<std::string>& find(const std::string& origin);

    // Whether the source makes what stands in the path; also where it cannot be read or has
    // errors, for then it may mean to. Each is read once.
    [[nodiscard]] bool still_makes(const std::string& source, const std::string& path);

private:
    // From the folder, with `/`.
    using Names = std::set<std::string>;
    [[nodiscard]] bool is_other(const std::string& origin) const;
    [[nodiscard]] std::string name_of(const std::string& path) const;
    [[nodiscard]] std::optional<std::string> search(const std::string& origin) const;
    [[nodiscard]] std::optional<Names> made_by(const std::string& source) const;

    const Options& options_;
    const Loaded& loaded_;
    zones::ZoneLoader& zones_;
    Environment& environment_;
    Manifest list_;
    // The sources of the run, as the list has them.
    std::set<std::string> own_;
    // Whether it has other sources at all.
    bool has_others_ = false;
    std::map<std::string, std::optional<std::string>> found_;
    // Nothing where it is not known.
    std::map<std::string, std::optional<Names>> made_;
};

// As somebody in the working folder would write it.
[[nodiscard]] std::string shown_path(const std::string& path);

}  // namespace stave::driver
