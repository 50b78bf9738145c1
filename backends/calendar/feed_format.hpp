// What every feed of this program has in common, for the writer and the reader
// of previous feeds.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace stave::calendar {

// Without a version, so that a new version does not change a feed.
inline constexpr std::string_view product_id = "-//Stave//Session calendar feed//EN";

// RFC 7986, section 5.3, advises against host names in UIDs; RFC 2606 keeps
// .invalid free for ever.
inline constexpr std::string_view uid_domain = "feeds.stave.invalid";

// In UTF-16 units: what the stricter calendar programs keep of a field.
inline constexpr std::size_t longest_summary = 255;
inline constexpr std::size_t longest_location = 255;
inline constexpr std::size_t longest_description = 8000;

// RFC 5545, section 3.3.8: an INTEGER's upper bound, less one for the next change.
inline constexpr std::int64_t last_sequence = 2147483646;

}  // namespace stave::calendar
