#include "compiler/driver/folder_update.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <system_error>
#include <utility>

#include "compiler/driver/files.hpp"
#include "compiler/driver/hashes.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

using Problem = std::optional<Diagnostic>;

Diagnostic about(Code code, const std::string& path) {
    return {code, {}, {path}, {}, {}};
}

std::vector<std::string> without_doubles(std::vector<std::string> hashes) {
    std::ranges::sort(hashes);
    const auto doubles = std::ranges::unique(hashes);
    hashes.erase(doubles.begin(), doubles.end());
    return hashes;
}

class Updater {
public:
    Updater(const FolderUpdate& update, OutputSet& outputs)
        : update_(update), outputs_(outputs), folder_(update.folder) {}

    Problem run() {
        if (auto failed = make_ready({update_.folder})) return failed;
        if (auto failed = read_list()) return failed;
        list_outputs();
        if (auto failed = make_ready(folders())) return failed;
        if (auto failed = refuse_strangers()) return failed;
        FileBatch batch;
        if (auto failed = add_changed(outputs_, batch)) return failed;
        find_stale();
        if (!batch.is_empty() || !stale_.empty()) {
            if (auto failed = write_list(both_lists())) return failed;
        }
        if (auto failed = batch.put_in_place()) return failed;
        if (auto failed = remove_stale()) return failed;
        remove_empty_addresses();
        return write_list(after_);
    }

    [[nodiscard]] Cleared cleared() const { return {stale_, left_}; }

private:
    [[nodiscard]] std::string place(const std::string& path) const {
        return (folder_ / path).string();
    }

    [[nodiscard]] std::string path_of(const std::string& place) const {
        return fs::path(place).lexically_relative(folder_).generic_string();
    }

    [[nodiscard]] std::vector<std::string> folders() const {
        std::set<std::string> folders;
        for (const std::string& name : update_.subfolders)
            folders.insert(place(name));
        for (const auto& [path, output] : outputs_)
            folders.insert(fs::path(path).parent_path().string());
        return {folders.begin(), folders.end()};
    }

    Problem read_list() {
        auto manifest = read_list_of(update_.folder);
        if (!manifest) return std::move(manifest.error());
        before_ = std::move(*manifest);
        return std::nullopt;
    }

    void list_outputs() {
        for (const auto& [path, output] : outputs_) {
            const std::string from_folder = path_of(path);
            after_[listed_name(from_folder)] = {
                {listed_hash(from_folder, output.bytes)}, output.source, output.feed_of};
        }
    }

    // A file that somebody put in the place of an output, or changed there.
    Problem refuse_strangers() {
        for (const auto& [path, output] : outputs_) {
            const auto before = read_if_there(path);
            // What cannot be read is told of, or replaced, when it is written.
            if (!before || !*before || **before == output.bytes) continue;
            if (is_ours(path_of(path), **before)) continue;
            const bool is_listed = before_.contains(listed_name(path_of(path)));
            if (!update_.may_replace(output, **before, is_listed))
                return about(Code::foreign_file, path);
        }
        return std::nullopt;
    }

    [[nodiscard]] bool is_ours(const std::string& path, std::string_view bytes) const {
        const auto entry = before_.find(listed_name(path));
        if (entry == before_.end()) return false;
        const std::vector<std::string>& hashes = entry->second.hashes;
        return std::ranges::find(hashes, listed_hash(path, bytes)) != hashes.end();
    }

    void find_stale() {
        std::vector<std::string> paths = private_paths();
        for (const auto& [name, entry] : before_)
            paths.push_back(name);
        for (const std::string& path : paths) {
            const std::string name = listed_name(path);
            const auto entry = before_.find(name);
            if (entry == before_.end() || after_.contains(name)) continue;
            if (!update_.covers(path, entry->second)) {
                kept_.insert(*entry);
                continue;
            }
            const auto bytes = read_if_there(place(path));
            if (!bytes || !*bytes) continue;
            (is_ours(path, **bytes) ? stale_ : left_).push_back(path);
        }
        after_.insert(kept_.begin(), kept_.end());
    }

    // What is on the disk there: the list has no names for it.
    [[nodiscard]] std::vector<std::string> private_paths() const {
        std::vector<std::string> paths;
        std::error_code problem;
        for (fs::recursive_directory_iterator entry(folder_ / private_folder, problem), end;
             !problem && entry != end; entry.increment(problem)) {
            std::error_code unknown;
            if (entry->is_regular_file(unknown)) paths.push_back(path_of(entry->path().string()));
        }
        return paths;
    }

    // What may be there between now and the end of the run.
    [[nodiscard]] Manifest both_lists() const {
        Manifest both = after_;
        for (const auto& [name, entry] : before_) {
            ManifestEntry& joined = both.try_emplace(name, entry).first->second;
            joined.hashes.insert(joined.hashes.end(), entry.hashes.begin(), entry.hashes.end());
            joined.hashes = without_doubles(std::move(joined.hashes));
        }
        return both;
    }

    Problem remove_stale() {
        for (const std::string& path : stale_) {
            std::error_code problem;
            fs::remove(folder_ / path, problem);
            if (problem) {
                return Diagnostic{Code::cannot_write, {}, {place(path), problem.message()}, {}, {}};
            }
        }
        return std::nullopt;
    }

    // Folders of addresses that are no more go with the last file in them.
    void remove_empty_addresses() const {
        std::error_code problem;
        std::vector<fs::path> addresses;
        for (fs::directory_iterator entry(folder_ / private_folder, problem), end;
             !problem && entry != end; entry.increment(problem)) {
            if (is_token(entry->path().filename().string())) addresses.push_back(entry->path());
        }
        for (const fs::path& address : addresses) {
            for (const fs::path& folder : {address / cards_folder, address}) {
                remove_leftovers(folder.string());
                // It stays where there is something in it.
                fs::remove(folder, problem);
            }
        }
    }

    Problem write_list(const Manifest& manifest) {
        const std::string path = place(std::string(manifest_file));
        const std::string text = to_json(manifest);
        const auto before = read_if_there(path);
        if (before && *before && **before == text) return std::nullopt;
        if (before && !*before && manifest.empty()) return std::nullopt;
        FileBatch batch;
        if (auto failed = batch.add(path, text)) return failed;
        return batch.put_in_place();
    }

    const FolderUpdate& update_;
    OutputSet& outputs_;
    fs::path folder_;
    Manifest before_;
    Manifest after_;
    Manifest kept_;
    std::vector<std::string> stale_;
    std::vector<std::string> left_;
};

}  // namespace

std::expected<Manifest, Diagnostic> read_list_of(const std::string& folder) {
    const std::string path = (fs::path(folder) / manifest_file).string();
    auto text = read_if_there(path);
    if (!text) return std::unexpected(std::move(text.error()));
    if (!*text) return Manifest{};
    auto manifest = read_manifest(**text);
    if (!manifest) return std::unexpected(about(manifest.error(), path));
    return std::move(*manifest);
}

std::expected<Cleared, Diagnostic> update_folder(const FolderUpdate& update, OutputSet& outputs) {
    Updater updater(update, outputs);
    if (auto failed = updater.run()) return std::unexpected(std::move(*failed));
    return updater.cleared();
}

void say_cleared(const Cleared& cleared, const std::string& folder, std::ostream& out) {
    for (const std::string& path : cleared.removed)
        out << fmt::format("removed {}\n", (fs::path(folder) / path).string());
    for (const std::string& path : cleared.left) {
        out << fmt::format("left {}, which somebody has changed\n",
                           (fs::path(folder) / path).string());
    }
}

}  // namespace stave::driver
