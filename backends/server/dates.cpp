#include "backends/server/dates.hpp"

#include <fmt/format.h>

#include <array>

namespace stave::server {

namespace {

using namespace std::string_view_literals;
using std::chrono::sys_seconds;

constexpr std::array days{"Sun"sv, "Mon"sv, "Tue"sv, "Wed"sv, "Thu"sv, "Fri"sv, "Sat"sv};
constexpr std::array long_days{"Sunday"sv,   "Monday"sv, "Tuesday"sv, "Wednesday"sv,
                               "Thursday"sv, "Friday"sv, "Saturday"sv};
constexpr std::array months{"Jan"sv, "Feb"sv, "Mar"sv, "Apr"sv, "May"sv, "Jun"sv,
                            "Jul"sv, "Aug"sv, "Sep"sv, "Oct"sv, "Nov"sv, "Dec"sv};

// Takes words from the front of a text; once one is missing, all are.
class Reader {
public:
    explicit Reader(std::string_view text) : text_(text) {}

    void word(std::string_view word) {
        is_sound_ = is_sound_ && text_.starts_with(word);
        if (is_sound_) text_.remove_prefix(word.size());
    }
    template <typename Names>
    unsigned one_of(const Names& names) {
        for (unsigned i = 0; i < names.size(); ++i) {
            if (!text_.starts_with(names[i])) continue;
            text_.remove_prefix(names[i].size());
            return i;
        }
        is_sound_ = false;
        return 0;
    }
    int number(std::size_t digits) {
        is_sound_ =
            is_sound_ && text_.size() >= digits &&
            text_.substr(0, digits).find_first_not_of("0123456789") == std::string_view::npos;
        if (!is_sound_) return 0;
        int value = 0;
        for (const char c : text_.substr(0, digits))
            value = value * 10 + (c - '0');
        text_.remove_prefix(digits);
        return value;
    }
    [[nodiscard]] bool starts_with(std::string_view word) const { return text_.starts_with(word); }
    [[nodiscard]] bool is_done() const { return is_sound_ && text_.empty(); }

private:
    std::string_view text_;
    bool is_sound_ = true;
};

struct Parts {
    int year = 0;
    unsigned month = 0;
    int day = 0;
    int hour = 0, minute = 0, second = 0;
};

void read_clock(Reader& reader, Parts& parts) {
    parts.hour = reader.number(2);
    reader.word(":");
    parts.minute = reader.number(2);
    reader.word(":");
    parts.second = reader.number(2);
}

std::optional<sys_seconds> time_of(const Parts& parts) {
    const std::chrono::year_month_day date{std::chrono::year(parts.year),
                                           std::chrono::month(parts.month + 1),
                                           std::chrono::day(static_cast<unsigned>(parts.day))};
    // A leap second may stand in a field (section 5.6.7).
    constexpr int leap_second = 60;
    if (!date.ok() || parts.hour > 23 || parts.minute > 59 || parts.second > leap_second) return {};
    return std::chrono::sys_days(date) + std::chrono::hours(parts.hour) +
           std::chrono::minutes(parts.minute) + std::chrono::seconds(parts.second);
}

std::optional<sys_seconds> read_fixed(std::string_view text) {
    Reader reader(text);
    Parts parts;
    reader.one_of(days);
    reader.word(", ");
    parts.day = reader.number(2);
    reader.word(" ");
    parts.month = reader.one_of(months);
    reader.word(" ");
    parts.year = reader.number(4);
    reader.word(" ");
    read_clock(reader, parts);
    reader.word(" GMT");
    return reader.is_done() ? time_of(parts) : std::nullopt;
}

// "Sunday, 06-Nov-94 08:49:37 GMT".
std::optional<sys_seconds> read_rfc850(std::string_view text, sys_seconds now) {
    constexpr int century = 100;
    constexpr int furthest = 50;
    Reader reader(text);
    Parts parts;
    reader.one_of(long_days);
    reader.word(", ");
    parts.day = reader.number(2);
    reader.word("-");
    parts.month = reader.one_of(months);
    reader.word("-");
    const int short_year = reader.number(2);
    reader.word(" ");
    read_clock(reader, parts);
    reader.word(" GMT");
    if (!reader.is_done()) return {};
    const std::chrono::year_month_day today{std::chrono::floor<std::chrono::days>(now)};
    const int this_year = static_cast<int>(today.year());
    parts.year = this_year - this_year % century + short_year;
    if (parts.year > this_year + furthest) parts.year -= century;
    return time_of(parts);
}

// "Sun Nov  6 08:49:37 1994".
std::optional<sys_seconds> read_asctime(std::string_view text) {
    Reader reader(text);
    Parts parts;
    reader.one_of(days);
    reader.word(" ");
    parts.month = reader.one_of(months);
    reader.word(" ");
    const bool has_one_digit = reader.starts_with(" ");
    if (has_one_digit) reader.word(" ");
    parts.day = reader.number(has_one_digit ? 1 : 2);
    reader.word(" ");
    read_clock(reader, parts);
    reader.word(" ");
    parts.year = reader.number(4);
    return reader.is_done() ? time_of(parts) : std::nullopt;
}

}  // namespace

std::string date_text(sys_seconds time) {
    const auto midnight = std::chrono::floor<std::chrono::days>(time);
    const std::chrono::year_month_day date{midnight};
    const std::chrono::hh_mm_ss clock(time - midnight);
    return fmt::format(
        "{}, {:02} {} {:04} {:02}:{:02}:{:02} GMT",
        days[std::chrono::weekday(midnight).c_encoding()], static_cast<unsigned>(date.day()),
        months[static_cast<unsigned>(date.month()) - 1], static_cast<int>(date.year()),
        clock.hours().count(), clock.minutes().count(), clock.seconds().count());
}

std::optional<sys_seconds> read_date(std::string_view text, sys_seconds now) {
    if (auto time = read_fixed(text)) return time;
    if (auto time = read_rfc850(text, now)) return time;
    return read_asctime(text);
}

}  // namespace stave::server
