// Whether a request's conditions hold for what would be sent (RFC 9110, section 13).
#pragma once

#include <chrono>
#include <string_view>

#include "backends/server/request.hpp"

namespace stave::server {

// What is known of the representation that was chosen.
struct Validators {
    // A strong entity tag, with its quotes.
    std::string_view tag;
    std::chrono::sys_seconds changed;
};

enum class Outcome { proceed, not_modified, failed };

// In the order of section 13.2.2; the method is GET or HEAD.
[[nodiscard]] Outcome conditions(const Request& request, const Validators& validators,
                                 std::chrono::sys_seconds now);

// Whether a Range field may be looked at (section 13.1.5). A date never holds: a file that was
// put in place twice within a second has the same one, and who has the tag may not send it.
[[nodiscard]] bool range_condition(const Request& request, const Validators& validators);

}  // namespace stave::server
