#include "backends/server/conditions.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "backends/server/dates.hpp"

namespace stave::server {

namespace {

constexpr std::string_view weak_mark = "W/";

struct Tag {
    // With its quotes.
    std::string_view opaque;
    bool is_weak = false;
};

// The entity tags of a list (section 8.8.3), up to what is none. A quoted comma is part of its
// tag.
std::vector<Tag> tags_of(std::string_view list) {
    std::vector<Tag> tags;
    while (true) {
        list.remove_prefix(std::min(list.find_first_not_of(" \t,"), list.size()));
        Tag tag;
        tag.is_weak = list.starts_with(weak_mark);
        if (tag.is_weak) list.remove_prefix(weak_mark.size());
        if (!list.starts_with('"')) return tags;
        const std::size_t end = list.find('"', 1);
        if (end == std::string_view::npos) return tags;
        tag.opaque = list.substr(0, end + 1);
        tags.push_back(tag);
        list.remove_prefix(end + 1);
    }
}

enum class Comparison { strong, weak };

// Section 8.8.3.2; our own tag is strong.
bool holds_tag(std::string_view value, std::string_view own, Comparison comparison) {
    if (trimmed(value) == "*") return true;
    return std::ranges::any_of(tags_of(value), [&](const Tag& tag) {
        return tag.opaque == own && (comparison == Comparison::weak || !tag.is_weak);
    });
}

// Nothing where the field is missing, or no date and so left aside (sections 13.1.3, 13.1.4).
std::optional<std::chrono::sys_seconds> date_field(const Request& request, std::string_view name,
                                                   std::chrono::sys_seconds now) {
    const std::optional<std::string> value = field_value(request, name);
    return value ? read_date(trimmed(*value), now) : std::nullopt;
}

}  // namespace

Outcome conditions(const Request& request, const Validators& validators,
                   std::chrono::sys_seconds now) {
    if (const auto value = field_value(request, "If-Match")) {
        if (!holds_tag(*value, validators.tag, Comparison::strong)) return Outcome::failed;
    } else if (const auto date = date_field(request, "If-Unmodified-Since", now)) {
        if (validators.changed > *date) return Outcome::failed;
    }
    if (const auto value = field_value(request, "If-None-Match")) {
        if (holds_tag(*value, validators.tag, Comparison::weak)) return Outcome::not_modified;
    } else if (const auto date = date_field(request, "If-Modified-Since", now)) {
        if (validators.changed <= *date) return Outcome::not_modified;
    }
    return Outcome::proceed;
}

bool range_condition(const Request& request, const Validators& validators) {
    const std::optional<std::string> value = field_value(request, "If-Range");
    if (!value) return true;
    return trimmed(*value) == validators.tag;
}

}  // namespace stave::server
