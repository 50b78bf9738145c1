#include "compiler/driver/folder_update.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <limits>
#include <set>
#include <stdexcept>
#include <system_error>
#include <utility>

#include "compiler/driver/files.hpp"
#include "compiler/driver/hashes.hpp"
#include "compiler/driver/parted_file.hpp"
#include "compiler/driver/shared_work.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

using Problem = std::optional<Diagnostic>;

// Of what may stand in the place of an output: whatever a disk holds is looked at.
constexpr std::size_t largest_file = std::numeric_limits<std::size_t>::max();
// Of the list, which has some two hundred bytes for each file.
constexpr std::size_t largest_list = std::size_t{256} << 20U;

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
        if (update_.is_alone) remove_all_leftovers();
        if (auto failed = read_list()) return failed;
        if (auto failed = make_folders()) return failed;
        FileBatch batch;
        if (auto failed = take_outputs(batch)) return failed;
        find_stale();
        if (!batch.is_empty() || !stale_.empty()) {
            if (auto failed = write_list(both_lists())) return failed;
        }
        if (auto failed = batch.put_in_place()) return failed;
        if (auto failed = remove_stale()) return failed;
        remove_empty_addresses();
        return write_list(std::move(after_));
    }

    [[nodiscard]] Cleared cleared() { return {std::move(stale_), std::move(left_), list_}; }

private:
    [[nodiscard]] std::string place(const std::string& path) const {
        return (folder_ / path).string();
    }

    // Most outputs are named by the way from the folder.
    [[nodiscard]] std::string path_of(const std::string& place) const {
        if (place.starts_with(start_)) return place.substr(start_.size());
        return fs::path(place).lexically_relative(folder_).generic_string();
    }

    [[nodiscard]] Problem make_folders() const {
        std::set<std::string> folders;
        for (const std::string& name : update_.subfolders)
            folders.insert(place(name));
        std::string last;
        for (const auto& [path, output] : outputs_) {
            std::string folder = path.substr(0, path.rfind('/'));
            if (folder == last) continue;
            last = folder;
            if (!ready_.contains(folder)) folders.insert(std::move(folder));
        }
        return make_ready({folders.begin(), folders.end()});
    }

    // Also from where nothing is written now. Behind a link may be a folder of another lock.
    void remove_all_leftovers() {
        remove_leftovers(folder_.string(), Leftovers::all);
        std::set<std::string_view> tops{cards_folder, feeds_folder, people_folder, private_folder};
        tops.insert(update_.subfolders.begin(), update_.subfolders.end());
        std::error_code problem;
        for (const std::string_view name : tops) {
            const fs::path top = folder_ / name;
            if (fs::is_directory(fs::symlink_status(top, problem)))
                remove_leftovers_below(top.string());
        }
    }

    void remove_leftovers_below(const std::string& folder) {
        ready_.insert(folder);
        for (const std::string& inner : remove_leftovers(folder, Leftovers::all))
            remove_leftovers_below(inner);
    }

    Problem read_list() {
        auto list = read_list_of(update_.folder, update_.known);
        if (!list) return std::move(list.error());
        list_ = std::move(*list);
        before_ = list_;
        return std::nullopt;
    }

    // Lists all outputs, and adds those that have changed to the batch. Each is read where it
    // waits and flushed to the disk, so several threads do it.
    Problem take_outputs(FileBatch& batch) {
        std::vector<OutputSet::value_type*> outputs;
        for (auto& output : outputs_)
            outputs.push_back(&output);
        std::vector<Problem> problems(outputs.size());
        share_work(outputs.size(), threads_for_disk(outputs.size()), [&]() -> Work {
            return [&](std::size_t id) {
                auto& [path, output] = *outputs[id];
                if (!output.standing_size) problems[id] = take_output(path, output, batch);
            };
        });
        const auto first = std::ranges::find_if(problems, &Problem::has_value);
        if (first != problems.end()) return *first;
        for (const auto& [path, output] : outputs_) {
            after_[listed_name(path_of(path))] = {{output.hash}, output.source, output.feed_of};
        }
        return std::nullopt;
    }

    Problem take_output(const std::string& path, Output& output, FileBatch& batch) const {
        // What cannot be read can still be replaced.
        auto before = open_if_there(path, largest_file);
        if (!before && before.error().code == Code::cannot_write) return before.error();
        const std::optional<PartedText> there =
            before ? std::move(*before) : std::optional<PartedText>();
        const PartedText content = output.content.parts();
        output.as_before = there && there->size == content.size;
        Sha256 listed = listed_hash_of(path_of(path));
        std::size_t done = 0;
        const bool is_whole = pass_on(content, [&](std::string_view part) {
            listed.add(part);
            output.as_before = output.as_before && there->read(done, part.size()) == part;
            done += part.size();
        });
        if (!is_whole) throw std::runtime_error("the disk has lost what waited on it");
        output.hash = listed.digits();
        if (output.as_before) return std::nullopt;
        if (there && !may_replace(path, output, *there)) return about(Code::foreign_file, path);
        return batch.add(path, content);
    }

    // Not a file that somebody put in the place of an output, or changed there.
    [[nodiscard]] bool may_replace(const std::string& path, const Output& output,
                                   const PartedText& before) const {
        if (is_ours(path_of(path), before)) return true;
        return update_.may_replace(output, before.read(0, SourceFile::largest),
                                   listed_before().contains(listed_name(path_of(path))));
    }

    [[nodiscard]] bool is_ours(const std::string& path, const PartedText& text) const {
        const auto entry = listed_before().find(listed_name(path));
        if (entry == listed_before().end()) return false;
        Sha256 listed = listed_hash_of(path);
        if (!pass_on(text, [&](std::string_view part) { listed.add(part); })) return false;
        const std::vector<std::string>& hashes = entry->second.hashes;
        return std::ranges::find(hashes, listed.digits()) != hashes.end();
    }

    void find_stale() {
        std::vector<std::string> paths = private_paths();
        for (const auto& [name, entry] : listed_before())
            paths.push_back(name);
        for (const std::string& path : paths) {
            const std::string name = listed_name(path);
            const auto entry = listed_before().find(name);
            if (entry == listed_before().end() || after_.contains(name)) continue;
            if (!update_.covers(path, entry->second)) {
                kept_.insert(*entry);
                continue;
            }
            const auto text = open_if_there(place(path), largest_file);
            if (!text || !*text) continue;
            (is_ours(path, **text) ? stale_ : left_).push_back(path);
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
        for (const auto& [name, entry] : listed_before()) {
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

    Problem write_list(Manifest files) {
        if (list_->is_written_so && list_->files == files) return std::nullopt;
        auto list = std::make_shared<FolderList>(to_json(files), std::move(files), true);
        const bool lists_nothing = list_->text.empty() && list->files.empty();
        if (lists_nothing) list->text.clear();
        if (list->text != list_->text) {
            FileBatch batch;
            if (auto failed = batch.add(place(std::string(manifest_file)), list->text))
                return failed;
            if (auto failed = batch.put_in_place()) return failed;
        }
        list_ = std::move(list);
        return std::nullopt;
    }

    [[nodiscard]] const Manifest& listed_before() const { return before_->files; }

    const FolderUpdate& update_;
    OutputSet& outputs_;
    fs::path folder_;
    // Of each place in it.
    std::string start_ = (folder_ / "").string();
    // Folders without leftovers.
    std::set<std::string> ready_;
    // As it was, and as it stands.
    KnownList before_;
    KnownList list_;
    Manifest after_;
    Manifest kept_;
    std::vector<std::string> stale_;
    std::vector<std::string> left_;
};

}  // namespace

std::expected<KnownList, Diagnostic> read_list_of(const std::string& folder,
                                                  const KnownList& known) {
    const std::string path = (fs::path(folder) / manifest_file).string();
    auto text = read_if_there(path, largest_list);
    if (!text) return std::unexpected(std::move(text.error()));
    if (!*text) return std::make_shared<FolderList>();
    if (known && known->text == **text) return known;
    auto manifest = read_manifest(**text);
    if (!manifest) return std::unexpected(about(manifest.error(), path));
    return std::make_shared<FolderList>(std::move(**text), std::move(*manifest), false);
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
