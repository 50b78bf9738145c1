#include "compiler/driver/build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <utility>
#include <vector>

#include "compiler/driver/card_outputs.hpp"
#include "compiler/driver/feed_keeper.hpp"
#include "compiler/driver/feed_output.hpp"
#include "compiler/driver/folder_lock.hpp"
#include "compiler/driver/folder_update.hpp"
#include "compiler/driver/output_keys.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/driver/recall.hpp"
#include "compiler/driver/run.hpp"

namespace stave::driver {

namespace {

using Paths = std::set<std::string>;

std::string folder_in(const Options& options, std::string_view name) {
    return (std::filesystem::path(options.out) / name).string();
}

// As the folder's list knows them.
Paths sources_of(const Options& options, const Loaded& loaded) {
    Paths sources;
    for (const analysis::Snapshot& snapshot : loaded.snapshots)
        sources.insert(origin_of(options.out, snapshot.source->path()));
    return sources;
}

// What a run makes anew of each of its sources, by the ends of their names.
FolderUpdate update_of(const Options& options, const Loaded& loaded,
                       std::vector<std::string> endings) {
    Paths sources = sources_of(options, loaded);
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

void refuse_taken(const OutputSet& outputs, const Paths& taken, std::vector<Diagnostic>& problems) {
    for (const auto& [path, output] : outputs) {
        if (taken.contains(path)) problems.push_back({Code::same_output, {}, {path}, {}, {}});
    }
}

// Of a run that is to write: where a source has errors or is missing, its feeds are too. Gives the
// folder's list where it could be read, else null.
KnownList keep_feeds(const Options& options, zones::ZoneLoader& zones, const OutputSet& outputs,
                     const Rebuild* rebuild, Loaded& loaded, Environment& environment) {
    const Paths others = rebuild != nullptr ? rebuild->taken : Paths{};
    refuse_taken(outputs, others, loaded.file_problems);
    if (loaded.exit_code() != exit_done) return nullptr;
    FeedKeeper keeper(options, loaded, zones, environment,
                      rebuild != nullptr ? rebuild->list : nullptr);
    keeper.refuse_taken(outputs, others, loaded.file_problems);
    keeper.warn_of_dropped(outputs, {}, loaded.file_problems);
    return keeper.list();
}

// The cards of all files in one folder.
std::vector<CardPlace> places_in(const std::string& folder, const Options& options,
                                 Loaded& loaded) {
    std::vector<CardPlace> places;
    for (analysis::Snapshot* snapshot : loaded.without_errors())
        places.push_back({snapshot, folder, origin_of(options.out, snapshot->source->path()), {}});
    return places;
}

// Those of all athletes, each in a folder of their own.
std::vector<CardPlace> places_of_people(const std::string& folder, const Options& options,
                                        Loaded& loaded) {
    std::vector<CardPlace> places;
    for (analysis::Snapshot* snapshot : loaded.without_errors()) {
        const std::string source = origin_of(options.out, snapshot->source->path());
        for (const std::uint32_t id : athletes_with_issues(*snapshot)) {
            const std::string own =
                (std::filesystem::path(folder) / snapshot->program.athletes[id].slug).string();
            places.push_back({snapshot, own, source, {}, {.athlete_id = id}});
        }
    }
    return places;
}

}  // namespace

std::optional<Built> build(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
                           Environment& environment, Rebuild* rebuild) {
    auto lock = lock_for(options.out, loaded);
    if (!lock) {
        loaded.file_problems.push_back(std::move(lock.error()));
        return std::nullopt;
    }
    const std::string cards = folder_in(options, cards_folder);
    const std::string feeds = folder_in(options, feeds_folder);
    OutputSet outputs(options.out);
    CardMaker maker(options, loaded.family, environment, outputs, loaded.file_problems);
    FeedMaker feed_maker(options, zones, environment, outputs, loaded.file_problems);
    std::optional<Recall> recall;
    if (rebuild != nullptr) {
        rebuild->memory.begin();
        recall.emplace(rebuild->memory, OutputKeys(loaded, options.card.language),
                       environment.now());
        maker.use(rebuild->tools);
        maker.go_on_from(*recall);
        feed_maker.go_on_from(*recall);
    }
    maker.make_cards(places_in(cards, options, loaded));
    const std::string people = folder_in(options, people_folder);
    const std::vector<CardPlace> personal = places_of_people(people, options, loaded);
    maker.make_cards(personal);
    if (options.together) maker.make_together(personal, people);
    for (const analysis::Snapshot* snapshot : loaded.without_errors()) {
        const std::string source = origin_of(options.out, snapshot->source->path());
        feed_maker.add_feeds(*snapshot, feeds, source);
        feed_maker.add_personal_feeds(*snapshot, people, source);
        say_source(outputs, source);
    }
    KnownList list = keep_feeds(options, zones, outputs, rebuild, loaded, environment);
    warn_of_large_feeds(outputs, loaded.file_problems);
    // A feed without a file that makes it stays: it is the memory of what subscribers have seen.
    FolderUpdate update = update_of(options, loaded, {".pdf", options.svg ? ".svg" : ".pdf"});
    update.subfolders = {std::string(cards_folder), std::string(feeds_folder)};
    update.is_alone = is_held(*lock);
    update.known = std::move(list);
    auto cleared = finish(outputs, update, loaded, environment);
    if (!cleared) return std::nullopt;
    if (rebuild != nullptr) {
        rebuild->memory.keep(outputs, sources_of(options, loaded));
        rebuild->list = cleared->list;
    }
    std::string summaries = empty_lines(loaded);
    for (const std::string& summary : maker.summaries())
        summaries += summary;
    environment.out << summaries;
    return Built{std::move(outputs), std::move(*cleared), std::move(summaries), std::move(*lock)};
}

void preview(const Options& options, Loaded& loaded, Environment& environment) {
    const auto lock = lock_for(options.out, loaded);
    if (!lock) return loaded.file_problems.push_back(lock.error());
    const std::string cards = folder_in(options, cards_folder);
    OutputSet outputs(options.out);
    CardMaker maker(options, loaded.family, environment, outputs, loaded.file_problems);
    maker.make_previews(places_in(cards, options, loaded));
    // One page of each card says nothing of the pictures of the others.
    FolderUpdate update = update_of(
        options, loaded,
        options.page == 0 ? std::vector<std::string>{".png"} : std::vector<std::string>{});
    update.subfolders = {std::string(cards_folder)};
    update.is_alone = is_held(*lock);
    if (!finish(outputs, update, loaded, environment)) return;
    environment.out << empty_lines(loaded);
    for (const std::string& name : maker.without_page())
        environment.out << fmt::format("{} has no page {}\n", name, options.page);
}

}  // namespace stave::driver
