#include "compiler/zones/zone_loader.hpp"

#include <date/tz.h>

#include <algorithm>
#include <chrono>
#include <stdexcept>

namespace stave::zones {

namespace {

// The longest of today's names has 32 letters.
constexpr std::size_t longest_name = 64;

bool is_letter(char sign) {
    return (sign >= 'A' && sign <= 'Z') || (sign >= 'a' && sign <= 'z');
}

// "Area/Place", "Area/Region/Place" or one word. Every real name begins with a
// capital; "localtime" and "posixrules", which differ between machines, do not.
bool is_zone_name(std::string_view name) {
    if (name.empty() || name.size() > longest_name) return false;
    if (name.front() < 'A' || name.front() > 'Z') return false;
    if (name.back() == '/' || name.find("//") != std::string_view::npos) return false;
    return std::all_of(name.begin(), name.end(), [](char sign) {
        return is_letter(sign) || (sign >= '0' && sign <= '9') || sign == '/' || sign == '_' ||
               sign == '-' || sign == '+';
    });
}

std::chrono::sys_seconds start_of(int year) {
    return std::chrono::sys_days{std::chrono::year{year} / std::chrono::January / 1};
}

std::unique_ptr<const civil::Zone> read_zone(std::string_view name) {
    const date::time_zone* const source = date::locate_zone(name);
    auto zone = std::make_unique<civil::Zone>();
    zone->name = name;
    const std::chrono::sys_seconds end = start_of(civil::last_year + 1);
    for (std::chrono::sys_seconds from = start_of(civil::first_year); from < end;) {
        const date::sys_info info = source->get_info(from);
        const bool daylight = info.save != std::chrono::minutes{0};
        zone->periods.push_back({info.begin, info.offset, info.abbrev, daylight});
        from = info.end;
    }
    return zone;
}

}  // namespace

const civil::Zone* ZoneLoader::find(std::string_view name) {
    if (!is_zone_name(name)) return nullptr;
    const auto known = zones_.find(name);
    if (known != zones_.end()) return known->second.get();
    std::unique_ptr<const civil::Zone> zone;
    try {
        zone = read_zone(name);
    } catch (const std::runtime_error&) {
        // No such zone, or no database: the answer is null either way.
        zone = nullptr;
    }
    return zones_.emplace(name, std::move(zone)).first->second.get();
}

civil::ZoneFinder ZoneLoader::finder() {
    return [this](std::string_view name) { return find(name); };
}

}  // namespace stave::zones
