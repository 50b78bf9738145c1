// What every feed of this program has in common, for the writer and the reader
// of previous feeds.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace stave::calendar {

// Without a version, so that a new version does not change a feed.
inline constexpr std::string_view product_id = "-//Stave//Session calendar feed//EN";

// The form of what a feed remembers. A version that reads more raises the number, so that
// an older one leaves its feeds alone. Feeds without the line are of the first form.
inline constexpr std::string_view format_head = "X-STAVE-FORMAT:";
inline constexpr std::int64_t feed_format = 1;

// An event's id, where it is no longer the one in its UID.
inline constexpr std::string_view id_head = "X-STAVE-ID:";

// How long athletes see that an event was cancelled, or what took place.
inline constexpr std::chrono::days kept_after_end{30};

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
