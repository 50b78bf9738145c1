#include "backends/server/request.hpp"

#include <algorithm>

namespace stave::server {

namespace {

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

}  // namespace

std::string lower_case(std::string_view text) {
    std::string result(text);
    std::ranges::transform(result, result.begin(), lower);
    return result;
}

bool same_name(std::string_view a, std::string_view b) {
    return std::ranges::equal(a, b, {}, lower, lower);
}

std::size_t field_count(const Request& request, std::string_view name) {
    const auto count = std::ranges::count_if(
        request.fields, [&](const Field& field) { return same_name(field.name, name); });
    return static_cast<std::size_t>(count);
}

std::optional<std::string> field_value(const Request& request, std::string_view name) {
    std::optional<std::string> value;
    for (const Field& field : request.fields) {
        if (!same_name(field.name, name)) continue;
        value = value ? *value + ", " + field.value : field.value;
    }
    return value;
}

bool has_sound_length(const Request& request) {
    // More digits than that are more bytes than there are disks for.
    constexpr std::size_t most_digits = 18;
    const std::optional<std::string> length = field_value(request, "Content-Length");
    return !length || (!length->empty() && length->size() <= most_digits &&
                       length->find_first_not_of("0123456789") == std::string::npos);
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

}  // namespace stave::server
