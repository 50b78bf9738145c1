#include "backends/calendar/previous.hpp"

#include <algorithm>
#include <unordered_map>
#include <utility>

#include "backends/calendar/line_reader.hpp"

namespace stave::calendar {

namespace {

// No clock is further behind UTC.
constexpr std::chrono::hours furthest_behind{12};

// Where each of the second feed's names of zones stands among the first one's.
std::vector<std::uint32_t> join_names(std::vector<std::string>& first,
                                      const std::vector<std::string>& second) {
    std::vector<std::uint32_t> places;
    for (const std::string& name : second) {
        const auto known = std::ranges::find(first, name);
        places.push_back(static_cast<std::uint32_t>(known - first.begin()));
        if (known == first.end()) first.push_back(name);
    }
    return places;
}

}  // namespace

bool is_ahead(const Moment& moment, std::chrono::sys_seconds now) {
    return end_of(moment) > now;
}

std::chrono::sys_seconds end_of(const Moment& moment) {
    return moment.instant + (moment.is_floating ? furthest_behind : std::chrono::hours{0});
}

std::string_view session_of(std::string_view id) {
    return id.substr(0, id.find('.'));
}

ContentLines unfold(std::string_view text) {
    ContentLines lines;
    LineReader reader(text);
    while (reader.next())
        lines.emplace_back(reader.line());
    return lines;
}

PreviousFeed merge(PreviousFeed first, const PreviousFeed& second) {
    const std::vector<std::uint32_t> zone_ids = join_names(first.zone_names, second.zone_names);
    const auto first_text = static_cast<std::uint32_t>(first.texts.size());
    std::unordered_map<std::uint64_t, std::size_t> places;
    for (std::size_t i = 0; i < first.events.size(); ++i)
        places.emplace(first.events[i].uid, i);
    for (PreviousEvent event : second.events) {
        event.text_id += first_text;
        if (event.zone_id) event.zone_id = zone_ids[*event.zone_id];
        const auto known = places.find(event.uid);
        if (known == places.end()) {
            first.events.push_back(event);
        } else if (first.events[known->second].sequence < event.sequence) {
            first.events[known->second] = event;
        }
    }
    first.zones.insert(first.zones.end(), second.zones.begin(), second.zones.end());
    first.texts.insert(first.texts.end(), second.texts.begin(), second.texts.end());
    return first;
}

}  // namespace stave::calendar
