// An event's content lines behind its times: what an athlete reads, and whether it takes
// place.
#pragma once

#include <string>
#include <string_view>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/feed.hpp"
#include "compiler/wording/language.hpp"

namespace stave::calendar {

// One line of text, cleaned, cut to what programs keep, and escaped.
[[nodiscard]] std::string text_value(std::string_view text, Lines lines, std::size_t limit);

// An event that is not confirmed is written as cancelled: marked before its summary, since
// not every program shows the status, and with the reason before its description.
[[nodiscard]] ContentLines content_lines(const Event& event, wording::Language language);

// `content` is that of a previous event, times included; the same as cancelled.
[[nodiscard]] ContentLines cancelled_lines(std::string_view content, wording::Language language);

}  // namespace stave::calendar
