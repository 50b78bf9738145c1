// A request of HTTP (RFC 9110) as it came, and how its fields are read.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stave::server {

struct Field {
    std::string name;
    std::string value;

    friend bool operator==(const Field&, const Field&) = default;
};

struct Request {
    std::string method;
    // With its escapes, as in RFC 9112, section 3.2; a query may be cut off already.
    std::string target;
    // "HTTP/1.1".
    std::string version;
    std::vector<Field> fields;
};

// Whether two names are one field: letter case does not count (RFC 9110, section 5.1).
[[nodiscard]] bool same_name(std::string_view a, std::string_view b);

[[nodiscard]] std::size_t field_count(const Request& request, std::string_view name);

// The field's value; where it stands in several lines, all of them as one list (RFC 9110,
// section 5.3).
[[nodiscard]] std::optional<std::string> field_value(const Request& request, std::string_view name);

// Whether the body's length, if one is said, is one number of reasonable size (RFC 9112, section
// 6.3; RFC 9110, section 8.6).
[[nodiscard]] bool has_sound_length(const Request& request);

// Without blanks and tabs around it.
[[nodiscard]] std::string_view trimmed(std::string_view text);

[[nodiscard]] std::string lower_case(std::string_view text);

}  // namespace stave::server
