// The list of what Stave wrote into a folder, so that it can take away what it no longer
// makes, and leaves alone what is somebody else's.
//
// The list stands in the folder and may be served with it. So what is below `private/`, whose
// path is a secret, is named by the SHA-256 of its path, and its content is hashed with
// the path: nobody learns the path, or can try whether they have guessed the content.
#pragma once

#include <expected>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/hashes.hpp"

namespace stave::driver {

inline constexpr std::string_view manifest_file = "stave-manifest.json";
inline constexpr std::string_view private_folder = "private";
inline constexpr std::string_view cards_folder = "cards";
inline constexpr std::string_view feeds_folder = "feeds";
// What is made for single athletes, a folder for each.
inline constexpr std::string_view people_folder = "people";

struct ManifestEntry {
    // What the file may hold to be ours: two while it is on its way from one to the other.
    std::vector<std::string> hashes;
    // Which source it was made from: the SHA-256 of its path from the folder, since paths tell
    // things too. Empty where the whole folder is made at once.
    std::string source;
    // Of a feed that was published for all: its source in the same way, since what is made at
    // once must not take the place of another's feed either.
    std::string feed_of = {};

    // Whose feed it is; empty where that is not known.
    [[nodiscard]] const std::string& origin() const { return source.empty() ? feed_of : source; }

    friend bool operator==(const ManifestEntry&, const ManifestEntry&) = default;
};

// By `listed_name`.
using Manifest = std::map<std::string, ManifestEntry>;

// Paths are those from the folder, with `/`.
[[nodiscard]] bool is_private_path(std::string_view path);
[[nodiscard]] std::string listed_name(const std::string& path);
[[nodiscard]] std::string listed_hash(const std::string& path, std::string_view bytes);
// The hash to which the content of that path is added.
[[nodiscard]] Sha256 listed_hash_of(const std::string& path);

[[nodiscard]] std::string to_json(const Manifest& manifest);

// Refuses what is no whole list (`manifest_damaged`) or has a later form (`manifest_newer`), and
// a list that names anything outside its folder.
[[nodiscard]] std::expected<Manifest, Code> read_manifest(std::string_view text);

}  // namespace stave::driver
