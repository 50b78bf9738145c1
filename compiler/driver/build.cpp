#include "compiler/driver/build.hpp"

#include <fmt/format.h>

#include <filesystem>

#include "compiler/driver/card_outputs.hpp"
#include "compiler/driver/feed_output.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/driver/run.hpp"

namespace stave::driver {

namespace {

std::string folder_in(const Options& options, std::string_view name) {
    return (std::filesystem::path(options.out) / name).string();
}

// Whether the outputs have been written.
bool finish(OutputSet& outputs, const std::vector<std::string>& folders, Loaded& loaded,
            Environment& environment) {
    if (loaded.exit_code() != exit_done) return false;
    if (auto failed = write_changed(outputs, folders)) {
        loaded.file_problems.push_back(std::move(*failed));
        return false;
    }
    say_outputs(outputs, environment.out);
    for (const analysis::Snapshot& snapshot : loaded.snapshots) {
        if (!snapshot.program.sessions.empty()) continue;
        environment.out << fmt::format("{} holds no session\n", snapshot.source->path());
    }
    return true;
}

}  // namespace

void build(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
           Environment& environment) {
    const std::string cards = folder_in(options, "cards");
    const std::string feeds = folder_in(options, "feeds");
    OutputSet outputs;
    CardMaker maker(options, environment, outputs, loaded.file_problems);
    for (analysis::Snapshot& snapshot : loaded.snapshots) {
        if (snapshot.sink.has_errors()) continue;
        maker.make_cards(snapshot, cards);
        add_feeds(snapshot, feeds, options, zones, environment, outputs, loaded.file_problems);
    }
    if (!finish(outputs, {cards, feeds}, loaded, environment)) return;
    for (const std::string& summary : maker.summaries())
        environment.out << summary;
}

void preview(const Options& options, Loaded& loaded, Environment& environment) {
    const std::string cards = folder_in(options, "cards");
    OutputSet outputs;
    CardMaker maker(options, environment, outputs, loaded.file_problems);
    for (analysis::Snapshot& snapshot : loaded.snapshots) {
        if (!snapshot.sink.has_errors()) maker.make_previews(snapshot, cards);
    }
    if (!finish(outputs, {cards}, loaded, environment)) return;
    for (const std::string& name : maker.without_page())
        environment.out << fmt::format("{} has no page {}\n", name, options.page);
}

}  // namespace stave::driver
