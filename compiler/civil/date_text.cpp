#include "compiler/civil/date_text.hpp"

#include <fmt/format.h>

namespace stave::civil {

std::string date_text(std::chrono::year_month_day date) {
    return fmt::format("{}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string clock_text(std::chrono::minutes clock) {
    const std::chrono::minutes in_day = clock % std::chrono::days{1};
    return fmt::format("{:02}:{:02}", in_day.count() / 60, in_day.count() % 60);
}

}  // namespace stave::civil
