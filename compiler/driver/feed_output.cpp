#include "compiler/driver/feed_output.hpp"

#include <filesystem>

#include "backends/calendar/feed.hpp"
#include "compiler/driver/files.hpp"
#include "compiler/driver/outputs.hpp"

namespace stave::driver {

std::optional<Diagnostic> add_feed(const analysis::Snapshot& snapshot, const std::string& folder,
                                   const Options& options, zones::ZoneLoader& zones,
                                   const Environment& environment, OutputSet& outputs) {
    const auto feed = make_feed(snapshot, zones, options.card.language);
    if (!feed) return std::nullopt;
    const std::string path = (std::filesystem::path(folder) / (feed->name + ".ics")).string();
    auto previous = read_if_there(path);
    if (!previous) return previous.error();
    const std::string before = previous->value_or("");
    if (!before.empty() && !calendar::is_own_feed(before)) {
        return Diagnostic{Code::foreign_feed, {}, {path}, {}, {}};
    }
    return add_output(outputs, "feed", path,
                      calendar::write(*feed, calendar::read_previous(before), environment.now()));
}

}  // namespace stave::driver
