#include "compiler/driver/feed_keeper.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <system_error>
#include <utility>

#include "backends/calendar/previous.hpp"
#include "compiler/driver/feed_output.hpp"
#include "compiler/driver/hashes.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/parted_file.hpp"
#include "compiler/driver/source_search.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view feed_ending = ".ics";

// The UIDs of what a feed announces for a time that is not over, as hashes; empty where it is
// none of ours.
using Uids = std::set<std::uint64_t>;

Uids coming_in(PartedText text, zones::ZoneLoader& zones, const Environment& environment) {
    Uids uids;
    const auto feed = calendar::read_previous(std::move(text), zones.finder());
    if (!feed) return uids;
    for (const calendar::PreviousEvent& event : feed->events) {
        if (!event.is_cancelled && calendar::is_ahead(event.end, environment.now()))
            uids.insert(event.uid);
    }
    return uids;
}

Uids coming_at(const std::string& path, zones::ZoneLoader& zones, const Environment& environment) {
    auto text = open_if_there(path, largest_feed);
    if (!text || !*text) return {};
    return coming_in(std::move(**text), zones, environment);
}

}  // namespace

std::string shown_path(const std::string& path) {
    std::error_code problem;
    const fs::path near = fs::path(path).lexically_relative(fs::current_path(problem));
    const bool is_inside = !problem && !near.empty() && *near.begin() != "..";
    return is_inside ? near.string() : path;
}

std::string origin_of(const std::string& folder, const std::string& source) {
    if (source == standard_input) return source;
    return sha256(
        fs::path(identity_of(source)).lexically_relative(identity_of(folder)).generic_string());
}

FeedKeeper::FeedKeeper(const Options& options, const Loaded& loaded, zones::ZoneLoader& zones,
                       Environment& environment, const KnownList& known)
    : options_(options), loaded_(loaded), zones_(zones), environment_(environment) {
    if (auto list = read_list_of(options.out, known)) list_ = std::move(*list);
    for (const analysis::Snapshot& snapshot : loaded.snapshots) {
        const std::string& path = snapshot.source->path();
        if (path != standard_input) own_.insert(origin_of(options.out, path));
    }
}

const Manifest& FeedKeeper::listed() const {
    static const Manifest none;
    return list_ ? list_->files : none;
}

std::string FeedKeeper::place(const std::string& name) const {
    return (fs::path(options_.out) / name).string();
}

bool FeedKeeper::is_previous(const std::string& path) const {
    return !options_.previous.empty() && identity_of(options_.previous) == identity_of(path);
}

std::vector<std::string> FeedKeeper::near_folders() const {
    std::vector<std::string> near{identity_of("."),
                                  fs::path(identity_of(options_.out)).parent_path().string()};
    for (const analysis::Snapshot& snapshot : loaded_.snapshots) {
        const fs::path folder = fs::path(identity_of(snapshot.source->path())).parent_path();
        near.push_back(folder.string());
        near.push_back(folder.parent_path().string());
    }
    return near;
}

std::optional<std::string> FeedKeeper::find_source(const std::string& origin) const {
    return find_file(near_folders(),
                     [&, folder = fs::path(identity_of(options_.out))](const fs::path& file) {
                         return sha256(file.lexically_relative(folder).generic_string()) == origin;
                     });
}

// A file that cannot be read, or has errors, may mean to make it.
bool FeedKeeper::still_makes(const std::string& source, const std::string& feed, Wanted wanted) {
    Options one;
    one.files = {source};
    movements::Library library;
    const Loaded other = load(one, zones_, library, environment_);
    if (other.snapshots.empty() || other.has_source_errors()) return true;
    const analysis::Snapshot& snapshot = other.snapshots.front();
    const fs::path from_folder = fs::path(feed).lexically_relative(options_.out);
    const std::string first = from_folder.begin()->string();
    const auto is_among = [&](const std::vector<FeedContent>& contents) {
        return std::ranges::any_of(contents, [&](const FeedContent& content) {
            return content.name == from_folder.stem().string() &&
                   (wanted == Wanted::a_feed || has_events(snapshot, content));
        });
    };
    // A private address may be anybody's.
    return (first != people_folder && is_among(feed_contents(snapshot))) ||
           (first != feeds_folder && is_among(personal_contents(snapshot)));
}

// Whether all that the feed still announces would be cancelled.
bool FeedKeeper::would_lose_all(const std::string& path, const Content& content) {
    const Uids before = coming_at(path, zones_, environment_);
    const Uids after = coming_in(content.parts(), zones_, environment_);
    return !before.empty() && std::ranges::none_of(before, [&](const std::uint64_t uid) {
        return after.contains(uid);
    });
}

std::optional<Diagnostic> FeedKeeper::refusal(const std::string& path, const Output& output) {
    const fs::path name = fs::path(path).lexically_relative(options_.out);
    const auto entry = listed().find(listed_name(name.generic_string()));
    if (entry == listed().end()) return std::nullopt;
    const std::string& origin = entry->second.origin();
    // What is read from standard input may be any file's text, and so is nobody's.
    const bool is_unknown = origin.empty() || origin == standard_input ||
                            output.source == standard_input || output.feed_of == standard_input;
    if (is_unknown || own_.contains(origin) || is_previous(path)) return std::nullopt;
    std::string owner = "a file that is not found here";
    std::string way_on = "to go on without it, move it away.";
    if (const auto source = find_source(origin)) {
        if (!still_makes(*source, path, Wanted::a_feed)) return std::nullopt;
        owner = shown_path(*source);
        way_on = "to go on with it in this file, take it out of the other one.";
    } else if (output.standing_size || !would_lose_all(path, output.content)) {
        return std::nullopt;
    } else if (options_.command != Command::publish) {
        way_on = "to go on with it in this file, build once with --previous " + path;
    }
    return Diagnostic{Code::feed_taken, {}, {path, std::move(owner), std::move(way_on)}, {}, {}};
}

void FeedKeeper::refuse_taken(const OutputSet& outputs, const std::set<std::string>& known,
                              std::vector<Diagnostic>& problems) {
    for (const auto& [path, output] : outputs) {
        if (output.kind != "feed" || known.contains(path)) continue;
        if (auto refused = refusal(path, output)) problems.push_back(std::move(*refused));
    }
}

// Feeds of build have one source each; what is published is all made at once. A file that was
// renamed leaves a feed that is called like the one it was.
bool FeedKeeper::was_made_here(const std::string& name, const ManifestEntry& entry) const {
    if (options_.command == Command::publish) return entry.source.empty();
    if (own_.contains(entry.source)) return true;
    if (entry.source.empty() || entry.source == standard_input) return false;
    if (is_previous(place(name))) return !find_source(entry.source);
    const std::string stem = fs::path(name).stem().string();
    return std::ranges::any_of(loaded_.snapshots, [&](const analysis::Snapshot& snapshot) {
        const fs::path path(snapshot.source->path());
        const fs::path older = fs::path(path).replace_filename(stem + path.extension().string());
        std::error_code problem;
        return origin_of(options_.out, older.string()) == entry.source &&
               !fs::exists(older, problem) && !problem;
    });
}

std::vector<std::string> FeedKeeper::private_feeds(const std::set<std::string>& tokens) const {
    std::vector<std::string> names;
    for (const std::string& token : tokens) {
        const std::string folder = fmt::format("{}/{}", private_folder, token);
        std::error_code problem;
        for (fs::directory_iterator entry(place(folder), problem), end; !problem && entry != end;
             entry.increment(problem)) {
            const std::string name = entry->path().filename().string();
            const std::string path = fmt::format("{}/{}", folder, name);
            if (name.ends_with(feed_ending) && listed().contains(listed_name(path)))
                names.push_back(path);
        }
    }
    return names;
}

std::size_t FeedKeeper::count_coming(const std::string& path) {
    return coming_at(path, zones_, environment_).size();
}

void FeedKeeper::warn_of(const std::string& name, std::vector<Diagnostic>& problems) {
    const std::string path = place(name);
    const std::size_t count = count_coming(path);
    if (count == 0) return;
    std::string way_on = "Tell its subscribers where the new one is, then delete it.";
    if (options_.command == Command::publish) {
        way_on = "Tell its subscribers where the new one is; it is taken away now.";
    } else if (!is_previous(path) && *fs::path(name).begin() != people_folder) {
        way_on = fmt::format(
            "If its plan, group or file has another name now, build once with --previous {}; tell "
            "its subscribers where the new one is, then delete it.",
            path);
    }
    problems.push_back({Code::feed_dropped,
                        {},
                        {path, fmt::format("{} {}", count, count == 1 ? "session" : "sessions"),
                         std::move(way_on)},
                        {},
                        {}});
}

void FeedKeeper::warn_of_dropped(const OutputSet& outputs, const std::set<std::string>& tokens,
                                 std::vector<Diagnostic>& problems) {
    std::vector<std::string> names = private_feeds(tokens);
    for (const auto& [name, entry] : listed()) {
        if (name.ends_with(feed_ending) && was_made_here(name, entry)) names.push_back(name);
    }
    for (const std::string& name : names) {
        if (!outputs.contains(place(name))) warn_of(name, problems);
    }
}

}  // namespace stave::driver
