#include "backends/calendar/used_zones.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "backends/calendar/stamp.hpp"

namespace stave::calendar {

namespace {

// "Europe/Lisbon" needs no quotes in a TZID parameter; a name that would is not
// the database's.
bool is_plain(std::string_view zone_name) {
    constexpr std::string_view plain =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789/_+-";
    return !zone_name.empty() && zone_name.find_first_not_of(plain) == std::string_view::npos;
}

std::chrono::year utc_year(std::chrono::sys_seconds instant) {
    const auto day = std::chrono::floor<std::chrono::days>(instant);
    return std::chrono::year_month_day{day}.year();
}

bool is_unique(const civil::Zone& zone, std::chrono::local_seconds time) {
    return civil::resolve(zone, time).kind == civil::LocalTimeKind::unique;
}

std::chrono::minutes length_of(const Event& event) {
    return std::max(event.length, std::chrono::minutes{1});
}

// When an event with a zone begins and ends.
struct Span {
    std::chrono::sys_seconds start;
    std::chrono::sys_seconds end;
    std::chrono::local_seconds local_end;
};

Span span_of(const Event& event) {
    Span span;
    span.start = civil::resolve(*event.zone, event.start).instant;
    span.end = span.start + length_of(event);
    span.local_end = civil::to_local(*event.zone, span.end);
    return span;
}

}  // namespace

void UsedZones::keep(const PreviousEvent& event) {
    if (!event.zone_id) return;
    Used& used = zones_[previous_.zone_names[*event.zone_id]];
    used.first_year = std::min(used.first_year, event.first_year);
    used.is_written = true;
}

void UsedZones::see(const EventOutline& event) {
    if (event.zone == nullptr) return;
    Used& used = zones_[event.zone->name];
    used.zone = event.zone;
    const std::chrono::year year = utc_year(civil::resolve(*event.zone, event.start).instant);
    used.first_year = std::min(used.first_year, year);
}

void UsedZones::find() {
    for (auto& [name, used] : zones_) {
        if (used.zone != nullptr && is_plain(name))
            used.rules = find_rules(*used.zone, used.first_year);
    }
}

bool UsedZones::is_open(const EventOutline& event) const {
    return event.zone != nullptr && is_open(zones_.at(event.zone->name));
}

bool UsedZones::is_any_open() const {
    return std::ranges::any_of(zones_, [](const auto& zone) { return is_open(zone.second); });
}

bool UsedZones::is_local(const Event& event) const {
    if (event.zone == nullptr || !zones_.at(event.zone->name).rules) return false;
    return is_unique(*event.zone, event.start) && is_unique(*event.zone, span_of(event).local_end);
}

ContentLines UsedZones::times(const Event& event) const {
    if (event.zone == nullptr) {
        return {"DTSTART:" + local_stamp(event.start),
                "DTEND:" + local_stamp(event.start + length_of(event))};
    }
    const Span span = span_of(event);
    if (!is_local(event)) {
        return {"DTSTART:" + utc_stamp(span.start), "DTEND:" + utc_stamp(span.end)};
    }
    const std::string& name = event.zone->name;
    return {fmt::format("DTSTART;TZID={}:{}", name, local_stamp(event.start)),
            fmt::format("DTEND;TZID={}:{}", name, local_stamp(span.local_end))};
}

void UsedZones::use(const Event& event) {
    if (is_local(event)) zones_.at(event.zone->name).is_written = true;
}

void UsedZones::append(ContentLines& lines) const {
    for (const auto& [name, used] : zones_) {
        if (!used.is_written) continue;
        if (used.rules) {
            append_vtimezone(lines, name, *used.rules);
            continue;
        }
        const auto before = std::ranges::find(previous_.zones, name, &PreviousZone::name);
        if (before == previous_.zones.end()) continue;
        const ContentLines as_it_was = unfold(before->text);
        lines.insert(lines.end(), as_it_was.begin(), as_it_was.end());
    }
}

}  // namespace stave::calendar
