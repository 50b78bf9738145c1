#include "compiler/driver/feed_keeper.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <system_error>
#include <utility>

#include "backends/calendar/previous.hpp"
#include "compiler/driver/feed_output.hpp"
#include "compiler/driver/parted_file.hpp"

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

FeedKeeper::FeedKeeper(const Options& options, const Loaded& loaded, zones::ZoneLoader& zones,
                       Environment& environment, SourceOwners& owners)
    : options_(options),
      loaded_(loaded),
      zones_(zones),
      environment_(environment),
      owners_(owners) {}

std::string FeedKeeper::place(const std::string& name) const {
    return (fs::path(options_.out) / name).string();
}

bool FeedKeeper::is_previous(const std::string& path) const {
    return !options_.previous.empty() && identity_of(options_.previous) == identity_of(path);
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
    const auto origin = owners_.other_origin(path, output);
    if (!origin || is_previous(path)) return std::nullopt;
    std::string owner = "a file that is not found here";
    std::string way_on = "to go on without it, move it away.";
    if (const auto& source = owners_.find(*origin)) {
        if (!owners_.still_makes(*source, path)) return std::nullopt;
        owner = shown_path(*source);
        way_on = "to go on with it in this file, take it out of the other one.";
    } else if (!would_lose_all(path, output.content)) {
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
bool FeedKeeper::was_made_here(const std::string& name, const ManifestEntry& entry) {
    if (options_.command == Command::publish) return entry.source.empty();
    if (owners_.is_own(entry.source)) return true;
    if (entry.source.empty() || entry.source == standard_input) return false;
    if (is_previous(place(name))) return !owners_.find(entry.source);
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
            if (name.ends_with(feed_ending) && owners_.list().contains(listed_name(path)))
                names.push_back(path);
        }
    }
    return names;
}

void FeedKeeper::warn_of(const std::string& name, std::vector<Diagnostic>& problems) {
    const std::string path = place(name);
    const std::size_t count = coming_at(path, zones_, environment_).size();
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
    for (const auto& [name, entry] : owners_.list()) {
        if (name.ends_with(feed_ending) && was_made_here(name, entry)) names.push_back(name);
    }
    for (const std::string& name : names) {
        if (!outputs.contains(place(name))) warn_of(name, problems);
    }
}

}  // namespace stave::driver
