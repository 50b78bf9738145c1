#include "compiler/driver/source_owners.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

#include "compiler/driver/folder_update.hpp"
#include "compiler/driver/hashes.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/readers.hpp"
#include "compiler/driver/source_search.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

// Cards of everybody, those of each athlete, and those of all athletes together.
void add_cards(const analysis::Snapshot& snapshot, std::set<std::string>& names) {
    std::vector<std::string> cards(analysis::issue_count(snapshot));
    for (const std::size_t id : issues_for(snapshot, {})) {
        cards[id] = card_name(analysis::issue(snapshot, id).session());
        names.insert(fmt::format("{}/{}.pdf", cards_folder, cards[id]));
    }
    for (const std::uint32_t athlete_id : athletes_with_issues(snapshot)) {
        const std::string& own = snapshot.program.athletes[athlete_id].slug;
        for (const std::size_t id : issues_for(snapshot, {.athlete_id = athlete_id})) {
            names.insert(fmt::format("{}/{}/{}.pdf", people_folder, own, cards[id]));
            names.insert(fmt::format("{}/{}.pdf", people_folder, cards[id]));
        }
    }
}

void add_feeds(const analysis::Snapshot& snapshot, std::set<std::string>& names) {
    for (const FeedContent& content : feed_contents(snapshot))
        names.insert(fmt::format("{}/{}.ics", feeds_folder, content.name));
    for (const FeedContent& content : personal_contents(snapshot))
        names.insert(fmt::format("{}/{}/{}.ics", people_folder, content.name, content.name));
}

}  // namespace

std::string origin_of(const std::string& folder, const std::string& source) {
    if (source == standard_input) return source;
    return sha256(
        fs::path(identity_of(source)).lexically_relative(identity_of(folder)).generic_string());
}

SourceOwners::SourceOwners(const Options& options, const Loaded& loaded, zones::ZoneLoader& zones,
                           Environment& environment)
    : options_(options), loaded_(loaded), zones_(zones), environment_(environment) {
    if (auto list = read_list_of(options.out)) list_ = std::move(*list);
    for (const analysis::Snapshot& snapshot : loaded.snapshots) {
        const std::string& path = snapshot.source->path();
        if (path != standard_input) own_.insert(origin_of(options.out, path));
    }
    has_others_ = std::ranges::any_of(
        list_, [&](const auto& entry) { return is_other(entry.second.origin()); });
}

// What is read from standard input may be any file's text, and so is nobody's.
bool SourceOwners::is_other(const std::string& origin) const {
    return !origin.empty() && origin != standard_input && !is_own(origin);
}

std::string SourceOwners::name_of(const std::string& path) const {
    return fs::path(path).lexically_relative(options_.out).generic_string();
}

std::optional<std::string> SourceOwners::other_origin(const std::string& path,
                                                      const Output& output) const {
    if (!has_others_ || output.source == standard_input || output.feed_of == standard_input)
        return std::nullopt;
    const auto entry = list_.find(listed_name(name_of(path)));
    if (entry == list_.end() || !is_other(entry->second.origin())) return std::nullopt;
    return entry->second.origin();
}

const std::optional<std::string>& SourceOwners::find(const std::string& origin) {
    const auto known = found_.find(origin);
    if (known != found_.end()) return known->second;
    return found_.emplace(origin, search(origin)).first->second;
}

std::optional<std::string> SourceOwners::search(const std::string& origin) const {
    std::vector<std::string> near{identity_of("."),
                                  fs::path(identity_of(options_.out)).parent_path().string()};
    for (const analysis::Snapshot& snapshot : loaded_.snapshots) {
        const fs::path folder = fs::path(identity_of(snapshot.source->path())).parent_path();
        near.push_back(folder.string());
        near.push_back(folder.parent_path().string());
    }
    return find_file(near, [&, folder = fs::path(identity_of(options_.out))](const fs::path& file) {
        return sha256(file.lexically_relative(folder).generic_string()) == origin;
    });
}

bool SourceOwners::still_makes(const std::string& source, const std::string& path) {
    auto known = made_.find(source);
    if (known == made_.end()) known = made_.emplace(source, made_by(source)).first;
    return !known->second || known->second->contains(name_of(path));
}

std::optional<SourceOwners::Names> SourceOwners::made_by(const std::string& source) const {
    Options one;
    one.files = {source};
    movements::Library library;
    const Loaded other = load(one, zones_, library, environment_);
    if (other.snapshots.empty() || other.has_source_errors()) return std::nullopt;
    Names names;
    add_cards(other.snapshots.front(), names);
    add_feeds(other.snapshots.front(), names);
    return names;
}

std::string shown_path(const std::string& path) {
    std::error_code problem;
    const fs::path near = fs::path(path).lexically_relative(fs::current_path(problem));
    const bool is_inside = !problem && !near.empty() && *near.begin() != "..";
    return is_inside ? near.string() : path;
}

}  // namespace stave::driver
