// What a document says of itself: dates as PDF and XMP write them, and the XMP packet
// (ISO 16684-1) that repeats title and language for programs that look no further.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace stave::card {

struct Metadata {
    // UTF-8, and a BCP 47 tag.
    std::string title;
    std::string language;
    std::optional<std::chrono::sys_seconds> made;
};

// "D:20261126113210Z", ISO 32000-1, 7.9.4.
[[nodiscard]] std::string pdf_date(std::chrono::sys_seconds time);
[[nodiscard]] std::string xmp_packet(const Metadata& metadata);

}  // namespace stave::card
