#include "backends/server/preferences.hpp"

#include <algorithm>
#include <optional>

#include "backends/server/request.hpp"

namespace stave::server {

namespace {

constexpr int whole_weight = 1000;

// "1", "0.5", "0.", "1.000": at most three decimals, at most 1.
std::optional<int> weight_of(std::string_view text) {
    constexpr std::size_t longest = 5;
    if (text.empty() || text.size() > longest || (text[0] != '0' && text[0] != '1')) return {};
    if (text.size() > 1 && text[1] != '.') return {};
    int weight = text[0] == '1' ? whole_weight : 0;
    int place = whole_weight / 10;
    for (std::size_t i = 2; i < text.size(); ++i, place /= 10) {
        if (text[i] < '0' || text[i] > '9') return {};
        weight += (text[i] - '0') * place;
    }
    if (weight > whole_weight) return {};
    return weight;
}

std::optional<Preference> preference_of(std::string_view member) {
    const std::size_t end = member.find(';');
    const std::string_view value = trimmed(member.substr(0, end));
    if (value.empty()) return {};
    Preference preference{lower_case(value), whole_weight};
    if (end == std::string_view::npos) return preference;
    const std::string_view parameter = trimmed(member.substr(end + 1));
    const std::size_t equals = parameter.find('=');
    if (equals == std::string_view::npos || !same_name(parameter.substr(0, equals), "q")) return {};
    const std::optional<int> weight = weight_of(parameter.substr(equals + 1));
    if (!weight) return {};
    preference.weight = *weight;
    return preference;
}

}  // namespace

std::vector<Preference> preferences(std::string_view list) {
    std::vector<Preference> found;
    while (!list.empty()) {
        const std::size_t comma = std::min(list.find(','), list.size());
        if (auto preference = preference_of(list.substr(0, comma)))
            found.push_back(std::move(*preference));
        list.remove_prefix(std::min(comma + 1, list.size()));
    }
    return found;
}

bool wants_gzip(std::string_view accept_encoding) {
    std::optional<int> gzip, identity, others;
    for (const Preference& preference : preferences(accept_encoding)) {
        // x-gzip is gzip: section 8.4.1.3.
        if (preference.value == "gzip" || preference.value == "x-gzip") gzip = preference.weight;
        if (preference.value == "identity") identity = preference.weight;
        if (preference.value == "*") others = preference.weight;
    }
    const int weight = gzip.value_or(others.value_or(0));
    return weight > 0 && weight >= identity.value_or(0);
}

}  // namespace stave::server
