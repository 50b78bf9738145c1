#include "compiler/driver/build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <utility>
#include <vector>

#include "compiler/driver/card_outputs.hpp"
#include "compiler/driver/feed_output.hpp"
#include "compiler/driver/folder_update.hpp"
#include "compiler/driver/hashes.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/driver/run.hpp"

namespace stave::driver {

namespace {

std::string folder_in(const Options& options, std::string_view name) {
    return (std::filesystem::path(options.out) / name).string();
}

// A file as the list of the folder knows it: by the way to it, so that both can be moved
// together. One standard input is not another.
std::string source_name(const Options& options, const std::string& path) {
    if (path == standard_input) return path;
    return sha256(std::filesystem::path(identity_of(path))
                      .lexically_relative(identity_of(options.out))
                      .generic_string());
}

// What a run makes anew of each of its sources, by the ends of their names.
FolderUpdate update_of(const Options& options, const Loaded& loaded,
                       std::vector<std::string> endings) {
    std::set<std::string> sources;
    for (const analysis::Snapshot& snapshot : loaded.snapshots)
        sources.insert(source_name(options, snapshot.source->path()));
    sources.erase(std::string(standard_input));
    FolderUpdate update;
    update.folder = options.out;
    update.covers = [sources = std::move(sources), endings = std::move(endings)](
                        const std::string& name, const ManifestEntry& entry) {
        return sources.contains(entry.source) &&
               std::ranges::any_of(
                   endings, [&](const std::string& ending) { return name.ends_with(ending); });
    };
    update.may_replace = [](const auto&...) { return true; };
    return update;
}

// What was taken away; nothing where the outputs have not been written.
std::optional<Cleared> finish(OutputSet& outputs, const FolderUpdate& update, Loaded& loaded,
                              Environment& environment) {
    if (loaded.exit_code() != exit_done) return std::nullopt;
    auto cleared = update_folder(update, outputs);
    if (!cleared) {
        loaded.file_problems.push_back(cleared.error());
        return std::nullopt;
    }
    say_outputs(outputs, environment.out);
    say_cleared(*cleared, update.folder, environment.out);
    return std::move(*cleared);
}

void refuse_taken(const OutputSet& outputs, const std::set<std::string>& taken,
                  std::vector<Diagnostic>& problems) {
    for (const auto& [path, output] : outputs) {
        if (taken.contains(path)) problems.push_back({Code::same_output, {}, {path}, {}, {}});
    }
}

// The cards of all files in one folder.
std::vector<CardPlace> places_in(const std::string& folder, const Options& options,
                                 Loaded& loaded) {
    std::vector<CardPlace> places;
    for (analysis::Snapshot* snapshot : loaded.without_errors())
        places.push_back({snapshot, folder, source_name(options, snapshot->source->path()), {}});
    return places;
}

// Those of all athletes, each in a folder of their own.
std::vector<CardPlace> places_of_people(const std::string& folder, const Options& options,
                                        Loaded& loaded) {
    std::vector<CardPlace> places;
    for (analysis::Snapshot* snapshot : loaded.without_errors()) {
        for (const std::uint32_t id : athletes_with_issues(*snapshot)) {
            const std::string own =
                (std::filesystem::path(folder) / snapshot->program.athletes[id].slug).string();
            places.push_back({snapshot,
                              own,
                              source_name(options, snapshot->source->path()),
                              {},
                              {.athlete_id = id}});
        }
    }
    return places;
}

}  // namespace

std::optional<Built> build(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
                           Environment& environment, Rebuild* rebuild) {
    const std::string cards = folder_in(options, cards_folder);
    const std::string feeds = folder_in(options, feeds_folder);
    OutputSet outputs(options.out);
    CardMaker maker(options, loaded.family, environment, outputs, loaded.file_problems);
    if (rebuild != nullptr) maker.use(rebuild->tools);
    maker.make_cards(places_in(cards, options, loaded));
    const std::string people = folder_in(options, people_folder);
    const std::vector<CardPlace> personal = places_of_people(people, options, loaded);
    maker.make_cards(personal);
    if (options.together) maker.make_together(personal, people);
    for (const analysis::Snapshot* snapshot : loaded.without_errors()) {
        add_feeds(*snapshot, feeds, options, zones, environment, outputs, loaded.file_problems);
        add_personal_feeds(*snapshot, people, options, zones, environment, outputs,
                           loaded.file_problems);
        say_source(outputs, source_name(options, snapshot->source->path()));
    }
    if (rebuild != nullptr) refuse_taken(outputs, rebuild->taken, loaded.file_problems);
    warn_of_large_feeds(outputs, loaded.file_problems);
    // A feed without a file that makes it stays: it is the memory of what subscribers have seen.
    FolderUpdate update = update_of(options, loaded, {".pdf", options.svg ? ".svg" : ".pdf"});
    update.subfolders = {std::string(cards_folder), std::string(feeds_folder)};
    auto cleared = finish(outputs, update, loaded, environment);
    if (!cleared) return std::nullopt;
    std::string summaries = empty_lines(loaded);
    for (const std::string& summary : maker.summaries())
        summaries += summary;
    environment.out << summaries;
    return Built{std::move(outputs), std::move(*cleared), std::move(summaries)};
}

void preview(const Options& options, Loaded& loaded, Environment& environment) {
    const std::string cards = folder_in(options, cards_folder);
    OutputSet outputs(options.out);
    CardMaker maker(options, loaded.family, environment, outputs, loaded.file_problems);
    maker.make_previews(places_in(cards, options, loaded));
    // One page of each card says nothing of the pictures of the others.
    FolderUpdate update = update_of(
        options, loaded,
        options.page == 0 ? std::vector<std::string>{".png"} : std::vector<std::string>{});
    update.subfolders = {std::string(cards_folder)};
    if (!finish(outputs, update, loaded, environment)) return;
    environment.out << empty_lines(loaded);
    for (const std::string& name : maker.without_page())
        environment.out << fmt::format("{} has no page {}\n", name, options.page);
}

}  // namespace stave::driver
