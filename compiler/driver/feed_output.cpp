#include "compiler/driver/feed_output.hpp"

#include <filesystem>
#include <optional>
#include <utility>

#include "backends/calendar/feed.hpp"
#include "compiler/driver/files.hpp"
#include "compiler/driver/outputs.hpp"

namespace stave::driver {

std::optional<Diagnostic> add_feed(const calendar::Feed& feed, const std::string& folder,
                                   const Environment& environment, OutputSet& outputs) {
    const std::string path = (std::filesystem::path(folder) / (feed.name + ".ics")).string();
    auto previous = read_if_there(path);
    if (!previous) return previous.error();
    const std::string before = previous->value_or("");
    if (!before.empty() && !calendar::is_own_feed(before)) {
        return Diagnostic{Code::foreign_feed, {}, {path}, {}, {}};
    }
    return add_output(outputs, "feed", path,
                      calendar::write(feed, calendar::read_previous(before), environment.now()));
}

void add_feeds(const analysis::Snapshot& snapshot, const std::string& folder,
               const Options& options, zones::ZoneLoader& zones, const Environment& environment,
               OutputSet& outputs, std::vector<Diagnostic>& problems) {
    for (const calendar::Feed& feed : make_feeds(snapshot, zones, options.card.language)) {
        if (auto failed = add_feed(feed, folder, environment, outputs))
            problems.push_back(std::move(*failed));
    }
}

}  // namespace stave::driver
