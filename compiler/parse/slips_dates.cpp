#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/slips.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;

// 1 for "Jan" or "January", 0 for no month.
int month_of(std::string_view word) {
    constexpr std::array months{"january"sv,   "february"sv, "march"sv,    "april"sv,
                                "may"sv,       "june"sv,     "july"sv,     "august"sv,
                                "september"sv, "october"sv,  "november"sv, "december"sv};
    constexpr std::size_t shortest = 3;
    if (word.size() < shortest) return 0;
    for (std::size_t i = 0; i < months.size(); ++i) {
        if (word.size() <= months[i].size() &&
            grammar::same_word(months[i].substr(0, word.size()), word)) {
            return static_cast<int>(i) + 1;
        }
    }
    return 0;
}

// A date as people write it: its place and its readings as year-month-day.
struct LooseDate {
    Span span;
    std::vector<std::string> readings;
};

void add_reading(LooseDate& date, int year, int month, int day) {
    constexpr int last_month = 12;
    constexpr int last_day = 31;
    if (month < 1 || month > last_month || day < 1 || day > last_day) return;
    const std::string reading = fmt::format("{}-{:02}-{:02}", year, month, day);
    if (std::ranges::find(date.readings, reading) == date.readings.end()) {
        date.readings.push_back(reading);
    }
}

// The three words or numbers of a date from `begin` on: "3 Dec 2026", "3/12/2026".
std::vector<std::string_view> date_parts(const Scene& scene, std::uint32_t begin, Span& span) {
    std::vector<std::string_view> parts;
    constexpr std::size_t part_count = 3;
    std::uint32_t i = begin;
    while (i < scene.body.end && parts.size() < part_count) {
        const char c = scene.text[i];
        const std::uint32_t part = i;
        const auto run = [&](auto accepts) {
            while (i < scene.body.end && accepts(scene.text[i]))
                ++i;
        };
        if (is_digit(c)) {
            run(is_digit);
            parts.push_back(scene.slice({part, i}));
            span = {begin, i};
        } else if (is_letter(c)) {
            run(is_letter);
            const std::string_view word = scene.slice({part, i});
            const bool ordinal = word == "st" || word == "nd" || word == "rd" || word == "th";
            if (ordinal || word == "of") continue;
            parts.push_back(word);
            span = {begin, i};
        } else if (c == ' ' || c == '/' || c == '.' || c == '-' || c == ',') {
            ++i;
        } else {
            break;
        }
    }
    return parts;
}

LooseDate read_loose_date(const Scene& scene, std::uint32_t begin) {
    LooseDate date{{begin, begin}, {}};
    const std::vector<std::string_view> parts = date_parts(scene, begin, date.span);
    constexpr std::size_t year_digits = 4;
    if (parts.size() != 3) return date;
    std::array<int, 3> numbers{};
    std::ranges::transform(parts, numbers.begin(), to_number);
    const bool year_last = parts[2].size() == year_digits && numbers[2] > 999;
    const bool year_first = parts[0].size() == year_digits && numbers[0] > 999;
    if (year_first) add_reading(date, numbers[0], numbers[1], numbers[2]);
    if (!year_last) return date;
    if (const int month = month_of(parts[0])) {
        add_reading(date, numbers[2], month, numbers[1]);
    } else if (const int second = month_of(parts[1])) {
        add_reading(date, numbers[2], second, numbers[0]);
    } else {
        add_reading(date, numbers[2], numbers[1], numbers[0]);
        add_reading(date, numbers[2], numbers[0], numbers[1]);
    }
    return date;
}

// A time of day as people write it, as hours:minutes, or "".
struct LooseClock {
    Span span;
    std::string reading;
};

LooseClock read_loose_clock(const Scene& scene, std::uint32_t begin) {
    LooseClock clock{{begin, begin}, ""};
    std::uint32_t i = begin;
    for (const std::string_view word : {"at "sv, "T"sv, "@ "sv, "@"sv, ", "sv}) {
        if (!scene.slice({begin, scene.body.end}).starts_with(word)) continue;
        i += static_cast<std::uint32_t>(word.size());
        break;
    }
    const std::uint32_t first = i;
    while (i < scene.body.end && is_digit(scene.text[i]))
        ++i;
    std::string_view hours = scene.slice({first, i});
    std::string_view minutes;
    constexpr std::size_t both_digits = 4;
    if (hours.size() == both_digits) {
        minutes = hours.substr(2);
        hours = hours.substr(0, 2);
    } else if (i + 2 < scene.body.end + 0 && ".:hH"sv.contains(scene.text[i]) &&
               is_digit(scene.text[i + 1]) && is_digit(scene.text[i + 2])) {
        minutes = scene.slice({i + 1, i + 3});
        i += 3;
    }
    constexpr int last_hour = 23;
    constexpr int last_minute = 59;
    const bool possible = !hours.empty() && hours.size() <= 2 && minutes.size() == 2 &&
                          to_number(hours) <= last_hour && to_number(minutes) <= last_minute;
    if (!possible) return clock;
    clock.span = {begin, i};
    clock.reading = fmt::format("{}:{}", hours, minutes);
    return clock;
}

// "18:30-19:25": an end instead of a length.
std::optional<Diagnostic> find_clock_range(const Scene& scene) {
    constexpr std::array signs{"-"sv, "\u2013"sv, "\u2014"sv, "to"sv, "until"sv, "till"sv};
    const auto* const sign = std::ranges::find_if(
        signs, [&](std::string_view one) { return scene.rest().starts_with(one); });
    if (scene.code != Code::word_out_of_place || sign == signs.end()) return std::nullopt;
    const Span said{scene.offset, scene.offset + static_cast<std::uint32_t>(sign->size())};
    Diagnostic result = make(Code::clock_range, said);
    const Span behind = trim(scene.text, {said.end, scene.body.end});
    const LooseClock end = read_loose_clock(scene, behind.begin);
    const std::uint32_t first = number_begin(scene.text, scene.body.begin, scene.before_end());
    const std::string_view begin = scene.slice({first, scene.before_end()});
    const std::size_t colon = begin.find(':');
    if (end.reading.empty() || colon == std::string_view::npos) return result;
    const auto minutes_of = [](std::string_view clock) {
        const std::size_t at = clock.find(':');
        return to_number(clock.substr(0, at)) * 60 + to_number(clock.substr(at + 1));
    };
    constexpr int day = 24 * 60;
    const int length = (minutes_of(end.reading) - minutes_of(begin) + day) % day;
    if (length == 0) return result;
    std::string words;
    if (length >= 60) words = fmt::format(" {} h", length / 60);
    if (length % 60 > 0) words += fmt::format(" {} min", length % 60);
    result.fixes.push_back(fix("for" + words, {scene.before_end(), end.span.end}, " for" + words));
    return result;
}

// "18:30, 50 min": the booked time behind a comma, where a zone belongs.
std::optional<Diagnostic> find_length_behind_comma(const Scene& scene) {
    const std::optional<Span> comma = scene.comma();
    if (scene.code != Code::zone_expected || !comma) return std::nullopt;
    const Measured length = measured_at(scene.text, scene.offset, scene.body.end);
    if (unit_dimension(scene.slice(length.unit)) != "time") return std::nullopt;
    const std::string mended = fmt::format("for {}", scene.slice(length.whole()));
    const Span start = trim(scene.text, {scene.body.begin, comma->begin});
    return make(Code::length_for, length.whole(), {std::string(scene.slice(length.whole()))},
                {fix(mended, {start.end, length.whole().begin}, " for ")});
}

// A date in words, or behind its time of day.
Diagnostic make_date(const Scene& scene) {
    // The word before may be a month, where the grammar takes it for a weekday.
    const std::string_view before = scene.before();
    constexpr std::array weekdays{"mon"sv, "tue"sv, "wed"sv, "thu"sv, "fri"sv, "sat"sv, "sun"sv};
    const bool weekday = std::ranges::any_of(weekdays, [before](std::string_view day) {
        return grammar::same_word(before.substr(0, day.size()), day);
    });
    const Span said{
        weekday || scene.kind != grammar::BodyKind::when ? scene.offset : scene.body.begin,
        scene.body.end};
    if (const LooseDate date = read_loose_date(scene, said.begin); !date.readings.empty()) {
        Diagnostic result = make(scene.code, date.span,
                                 {std::string(scene.slice(date.span)), date.readings.front()});
        for (const std::string& reading : date.readings)
            result.fixes.push_back(fix(reading, date.span, reading));
        return result;
    }
    return make(scene.code, said, {std::string(scene.slice(said)), "2026-12-03"});
}

}  // namespace

Diagnostic describe_date(const Scene& scene) {
    if (auto missing = find_missing_word(scene)) return *missing;
    if (scene.code == Code::date_expected) return make_date(scene);
    if (auto range = find_clock_range(scene)) return *range;
    if (auto length = find_length_behind_comma(scene)) return *length;
    if (scene.code == Code::clock_expected) {
        const LooseClock clock = read_loose_clock(scene, scene.offset);
        if (clock.reading.empty() || clock.reading == scene.slice(clock.span)) {
            return make(scene.code, scene.token, {scene.word()});
        }
        const std::string text = scene.offset > scene.before_end() || scene.before().empty()
                                     ? clock.reading
                                     : " " + clock.reading;
        return make(scene.code, clock.span, {}, {fix(clock.reading, clock.span, text)});
    }
    if (scene.code == Code::zone_expected && scene.rest().empty()) return describe_detail(scene);
    if (scene.code != Code::word_out_of_place) return make(scene.code, scene.token, {scene.word()});
    const bool zone = scene.rest().contains('/') && is_letter(scene.rest().front());
    if (zone) {
        return make(Code::comma_missing, scene.token, {scene.word()},
                    {fix(",", {scene.before_end(), scene.offset}, ", ")});
    }
    const bool when = scene.kind == grammar::BodyKind::when;
    return make(when ? Code::when_end : Code::line_end, scene.token, {scene.word()});
}

}  // namespace stave::parse
