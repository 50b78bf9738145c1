#include "backends/calendar/stamp.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace stave::calendar {

namespace {

// The value of digits that are known to be digits.
int number_in(std::string_view text, std::size_t begin, std::size_t size) {
    int value = 0;
    std::from_chars(text.data() + begin, text.data() + begin + size, value);
    return value;
}

}  // namespace

std::string local_stamp(std::chrono::local_seconds time) {
    const auto day = std::chrono::floor<std::chrono::days>(time);
    const std::chrono::year_month_day date{day};
    const std::chrono::hh_mm_ss<std::chrono::seconds> clock{time - day};
    return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                       clock.hours().count(), clock.minutes().count(), clock.seconds().count());
}

std::string utc_stamp(std::chrono::sys_seconds time) {
    return local_stamp(std::chrono::local_seconds{time.time_since_epoch()}) + 'Z';
}

std::optional<std::chrono::sys_seconds> parse_utc_stamp(std::string_view text) {
    constexpr std::string_view shape = "00000000T000000Z";
    const auto fits = [](char sign, char wanted) {
        return wanted == '0' ? sign >= '0' && sign <= '9' : sign == wanted;
    };
    if (!std::equal(text.begin(), text.end(), shape.begin(), shape.end(), fits)) return {};

    const std::chrono::year_month_day date{
        std::chrono::year{number_in(text, 0, 4)},
        std::chrono::month{static_cast<unsigned>(number_in(text, 4, 2))},
        std::chrono::day{static_cast<unsigned>(number_in(text, 6, 2))}};
    const int hour = number_in(text, 9, 2);
    const int minute = number_in(text, 11, 2);
    const int second = number_in(text, 13, 2);
    if (!date.ok() || hour > 23 || minute > 59 || second > 59) return {};
    return std::chrono::sys_days{date} + std::chrono::hours{hour} + std::chrono::minutes{minute} +
           std::chrono::seconds{second};
}

}  // namespace stave::calendar
