// Whose the feeds of a folder are: none is taken from another source unseen, and none is left
// to its subscribers unsaid.
//
// The list of the folder has the source of each feed, as a hash, since paths tell things. A feed
// goes on under another source where its own is gone or no longer makes it, which is what a
// renamed file looks like; so UIDs stay. And a file that makes feeds still is not left out of what
// is published: they would be taken away, and begin anew when it is named again.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "compiler/driver/environment.hpp"
#include "compiler/driver/folder_update.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/manifest.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// A file as the list of a folder knows it: by the way to it, so that both can be moved
// together. One standard input is not another.
[[nodiscard]] std::string origin_of(const std::string& folder, const std::string& source);

// As somebody in the working folder would write it.
[[nodiscard]] std::string shown_path(const std::string& path);

class FeedKeeper {
public:
    // Reads the list of `options.out`, which may be known. What is wrong with the list is told
    // when the folder is written. The other four must outlive it.
    FeedKeeper(const Options& options, const Loaded& loaded, zones::ZoneLoader& zones,
               Environment& environment, const KnownList& known = nullptr);

    // As it was read; null where it could not be.
    [[nodiscard]] const KnownList& list() const { return list_; }

    // Adds a problem for each feed among the outputs that another source makes still, or whose
    // source is not found and of which nothing would be left. `known` are paths that are
    // refused already.
    void refuse_taken(const OutputSet& outputs, const std::set<std::string>& known,
                      std::vector<Diagnostic>& problems);

    // Adds a problem for each source that is there still, makes feeds of a published folder with
    // sessions to come, and is not named, and for each file of addresses without its source that
    // has such feeds; whether there is any. `tokens` are the private addresses
    // of those that are.
    bool refuse_left_out(const OutputSet& outputs, const std::set<std::string>& tokens,
                         std::vector<Diagnostic>& problems);

    // Warns of each feed that these sources made before, that has sessions to come, and that
    // is not among the outputs. `tokens` are the private addresses that are still given.
    void warn_of_dropped(const OutputSet& outputs, const std::set<std::string>& tokens,
                         std::vector<Diagnostic>& problems);

private:
    // By source: the paths of what it makes.
    using LeftOut = std::map<std::string, std::vector<std::string>>;

    [[nodiscard]] const Manifest& listed() const;
    [[nodiscard]] std::string place(const std::string& name) const;
    // Folders in which a file that is known by its origin alone is looked for.
    [[nodiscard]] std::vector<std::string> near_folders() const;
    // How many sessions the feed announces for a time that is not over.
    [[nodiscard]] std::size_t count_coming(const std::string& path);
    void add_left_out(const std::string& source, const std::string& path, LeftOut& left_out);
    [[nodiscard]] LeftOut public_left_out(const OutputSet& outputs);
    // `alone`: files of addresses whose source is not there.
    void add_private_left_out(const OutputSet& outputs, const std::set<std::string>& tokens,
                              LeftOut& left_out, std::set<std::string>& alone);
    // Whether `--previous` names it.
    [[nodiscard]] bool is_previous(const std::string& path) const;
    // Where the file of that origin is, if it is not far away.
    [[nodiscard]] std::optional<std::string> find_source(const std::string& origin) const;
    [[nodiscard]] std::optional<Diagnostic> refusal(const std::string& path, const Output& output);
    // `wanted`: whether a feed that has no session any more counts.
    enum class Wanted : std::uint8_t { a_feed, sessions };
    [[nodiscard]] bool still_makes(const std::string& source, const std::string& feed,
                                   Wanted wanted);
    [[nodiscard]] bool would_lose_all(const std::string& path, const Content& content);
    [[nodiscard]] bool was_made_here(const std::string& name, const ManifestEntry& entry) const;
    // Feeds at private addresses, whose names the list does not have.
    [[nodiscard]] std::vector<std::string> private_feeds(const std::set<std::string>& tokens) const;
    void warn_of(const std::string& name, std::vector<Diagnostic>& problems);

    const Options& options_;
    const Loaded& loaded_;
    zones::ZoneLoader& zones_;
    Environment& environment_;
    KnownList list_;
    // The sources of the run, as the list has them.
    std::set<std::string> own_;
};

}  // namespace stave::driver
