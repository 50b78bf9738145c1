// What a client would rather have: lists with weights, such as Accept-Encoding (RFC 9110,
// sections 12.4.2 and 12.5).
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace stave::server {

struct Preference {
    // In small letters.
    std::string value;
    // Thousandths; 0 is a refusal.
    int weight = 0;
};

// In the order of the list. Members that are not understood are left out.
[[nodiscard]] std::vector<Preference> preferences(std::string_view list);

// Whether gzip may be sent and is wanted at least as much as the bytes as they are: section
// 12.5.3. An empty list allows none.
[[nodiscard]] bool wants_gzip(std::string_view accept_encoding);

}  // namespace stave::server
