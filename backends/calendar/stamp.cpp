#include "backends/calendar/stamp.hpp"

#include <algorithm>
#include <cstdint>
#include <ranges>
#include <span>

namespace stave::calendar {

namespace {

constexpr std::string_view shape = "00000000T000000Z";

// The value of signs that are known to be digits.
int number_in(std::string_view text, std::size_t begin, std::size_t size) {
    int value = 0;
    for (const char digit : text.substr(begin, size))
        value = value * 10 + (digit - '0');
    return value;
}

// As many digits as there is room for. A feed has six such numbers in each of its stamps, so
// this is no place for a library's formatting.
void put_number(std::span<char> place, std::int64_t value) {
    for (char& digit : std::views::reverse(place)) {
        digit = static_cast<char>('0' + value % 10);
        value /= 10;
    }
}

}  // namespace

std::string local_stamp(std::chrono::local_seconds time) {
    const auto day = std::chrono::floor<std::chrono::days>(time);
    const std::chrono::year_month_day date{day};
    const std::chrono::hh_mm_ss<std::chrono::seconds> clock{time - day};
    std::string text(shape, 0, shape.size() - 1);
    const std::span<char> digits(text);
    put_number(digits.subspan(0, 4), static_cast<int>(date.year()));
    put_number(digits.subspan(4, 2), static_cast<unsigned>(date.month()));
    put_number(digits.subspan(6, 2), static_cast<unsigned>(date.day()));
    put_number(digits.subspan(9, 2), clock.hours().count());
    put_number(digits.subspan(11, 2), clock.minutes().count());
    put_number(digits.subspan(13, 2), clock.seconds().count());
    return text;
}

std::string utc_stamp(std::chrono::sys_seconds time) {
    return local_stamp(std::chrono::local_seconds{time.time_since_epoch()}) + 'Z';
}

std::optional<std::chrono::sys_seconds> parse_utc_stamp(std::string_view text) {
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
