// Cuts a line into head, body and remark before the grammar sees it.
//
// The head ends at the first colon that does not stand between two digits. A
// remark begins at a # at the line's start, or with a blank (or the head's
// colon) before it and a blank or the end behind it.
#pragma once

#include <optional>
#include <string_view>

#include "compiler/source/source_file.hpp"

namespace stave::parse {

struct ScannedLine {
    // The line without blanks at its ends and without a remark; may be empty.
    Span content;
    Span remark;
    // The colon's own bytes, if there is one.
    std::optional<Span> colon;
    // A colon between two digits that came before, if any: "row 1:30".
    std::optional<std::uint32_t> clock_colon;
    Span head;
    Span body;
};

[[nodiscard]] ScannedLine scan_line(std::string_view text, Span line);

// Without the blanks at both ends.
[[nodiscard]] constexpr std::string_view slice(std::string_view text, Span span) {
    return text.substr(span.begin, span.size());
}
[[nodiscard]] Span trim(std::string_view text, Span span);

// The first comma of any form in the span; the empty place at its end where there is none.
[[nodiscard]] Span find_comma(std::string_view text, Span span);
// The last one.
[[nodiscard]] Span find_last_comma(std::string_view text, Span span);
// The bytes of the comma that the text begins or ends with; 0 for none.
[[nodiscard]] std::uint32_t comma_size_at(std::string_view text);
[[nodiscard]] std::uint32_t comma_size_before(std::string_view text);
// The text up to its first comma.
[[nodiscard]] std::string_view up_to_comma(std::string_view text);
[[nodiscard]] bool has_comma(std::string_view text);

}  // namespace stave::parse
