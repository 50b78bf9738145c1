// Writes a feed from events that a test chooses: JSON on standard input, the feed
// on standard output. `feed_readers.py` says what the JSON holds and computes by
// itself what calendar programs should read.
#include <chrono>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "backends/calendar/feed.hpp"
#include "backends/calendar/previous.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace {

using nlohmann::json;

// [year, month, day, hour, minute]
std::chrono::local_seconds local_time(const json& parts) {
    const std::chrono::year_month_day date{std::chrono::year{parts.at(0).get<int>()},
                                           std::chrono::month{parts.at(1).get<unsigned>()},
                                           std::chrono::day{parts.at(2).get<unsigned>()}};
    return std::chrono::local_days{date} + std::chrono::hours{parts.at(3).get<int>()} +
           std::chrono::minutes{parts.at(4).get<int>()};
}

stave::calendar::Event event_from(const json& source, stave::zones::ZoneLoader& zones) {
    stave::calendar::Event event;
    source.at("id").get_to(event.id);
    event.session = event.id;
    source.at("summary").get_to(event.summary);
    source.at("description").get_to(event.description);
    source.at("location").get_to(event.location);
    source.at("url").get_to(event.url);
    event.start = local_time(source.at("start"));
    event.length = std::chrono::minutes{source.at("minutes").get<int>()};
    const std::string zone = source.at("zone").get<std::string>();
    if (zone.empty()) return event;
    event.zone = zones.find(zone);
    if (event.zone == nullptr) throw std::runtime_error("no zone " + zone);
    return event;
}

std::string feed_from(const json& source) {
    stave::zones::ZoneLoader zones;
    stave::calendar::Feed feed;
    source.at("name").get_to(feed.name);
    source.at("title").get_to(feed.title);
    std::vector<stave::calendar::Event> events;
    for (const json& event : source.at("events"))
        events.push_back(event_from(event, zones));
    feed.events = stave::calendar::Events(std::move(events));
    const std::chrono::local_seconds now = local_time(source.at("now"));
    const std::string text = source.at("previous").get<std::string>();
    stave::calendar::PreviousFeed previous;
    if (!text.empty())
        previous = stave::calendar::read_previous(stave::in_memory(text), zones.finder()).value();
    return write(feed, previous, std::chrono::sys_seconds{now.time_since_epoch()});
}

}  // namespace

int main() {
    try {
        std::cout << feed_from(json::parse(std::cin));
        return EXIT_SUCCESS;
    } catch (const std::exception& error) {
        std::cerr << "feed_sample: " << error.what() << '\n';
        return EXIT_FAILURE;
    }
}
