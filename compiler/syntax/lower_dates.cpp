#include <fmt/format.h>

#include <array>

#include "compiler/civil/zone.hpp"
#include "compiler/syntax/lower_parts.hpp"

namespace stave::syntax {

namespace {

using parse::NodeKind;

// The figures of "2026–12–03", whatever dashes stand between them.
std::array<int, 3> figures(std::string_view text) {
    std::array<int, 3> result{};
    std::size_t part = 0;
    bool in_number = false;
    for (const char c : text) {
        const bool digit = c >= '0' && c <= '9';
        if (digit) result[part] = result[part] * 10 + (c - '0');
        if (in_number && !digit && part < 2) ++part;
        in_number = digit;
    }
    return result;
}

// Without the blanks behind it.
Word lower_weekday(const NodeReader& reader, Span span) {
    const std::string_view word = reader.slice(span);
    const std::string_view trimmed = word.substr(0, word.find_first_of(" \t\xC2"));
    return {trimmed, {span.begin, span.begin + static_cast<std::uint32_t>(trimmed.size())}};
}

}  // namespace

std::optional<Day> lower_date(const NodeReader& reader, Span span) {
    const auto [year, month, day_number] = figures(reader.slice(span));
    const Day day{std::chrono::year_month_day(std::chrono::year(year),
                                              std::chrono::month(static_cast<unsigned>(month)),
                                              std::chrono::day(static_cast<unsigned>(day_number))),
                  span};
    if (year < civil::first_year || year > civil::last_year) {
        reader.report(Code::date_impossible, span,
                      {reader.said(span), fmt::format("Time zones are known from {} to {}.",
                                                      civil::first_year, civil::last_year)});
        return std::nullopt;
    }
    if (day.date.ok()) return day;
    std::string reason = "A year has 12 months.";
    if (day.date.month().ok()) {
        const std::chrono::year_month_day_last end(day.date.year(),
                                                   std::chrono::month_day_last(day.date.month()));
        reason = fmt::format("That month has {} days.", static_cast<unsigned>(end.day()));
    }
    reader.report(Code::date_impossible, span, {reader.said(span), reason});
    return std::nullopt;
}

std::optional<std::chrono::minutes> lower_clock(const NodeReader& reader, Span span) {
    const std::string_view text = reader.slice(span);
    const bool with_minutes = text.find(':') != std::string_view::npos;
    auto [hours, minutes, unused] = figures(text.substr(0, text.find_first_of(" apAP")));
    if (!with_minutes) minutes = 0;
    const bool evening = text.find_first_of("pP") != std::string_view::npos;
    const bool half_day = evening || text.find_first_of("aA") != std::string_view::npos;
    const bool possible = minutes < 60 && (half_day ? hours >= 1 && hours <= 11 : hours < 24);
    if (!possible) {
        std::vector<Fix> fixes;
        if (half_day && hours == 12) {
            for (const std::string_view hour : {"12", "00"}) {
                const std::string mended = fmt::format("{}:{:02}", hour, minutes);
                fixes.push_back({mended, {Edit{span, mended}}});
            }
        }
        reader.report(Code::clock_impossible, span, {reader.said(span)}, std::move(fixes));
        return std::nullopt;
    }
    return std::chrono::hours(hours + (evening ? 12 : 0)) + std::chrono::minutes(minutes);
}

std::optional<When> lower_when(const NodeReader& reader, NodeRange nodes) {
    When when;
    std::optional<Day> day;
    std::optional<std::chrono::minutes> clock;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        const Span span = reader.at(i).span;
        switch (reader.at(i).kind) {
            case NodeKind::weekday:
                when.weekday = lower_weekday(reader, span);
                break;
            case NodeKind::date:
                day = lower_date(reader, span);
                if (!day) return std::nullopt;
                when.date = day->date;
                when.date_span = span;
                break;
            case NodeKind::clock:
                clock = lower_clock(reader, span);
                if (!clock) return std::nullopt;
                when.clock = *clock;
                when.clock_span = span;
                break;
            case NodeKind::time_limit:
                when.time_limit = lower_time(reader, i + 1);
                if (!when.time_limit) return std::nullopt;
                break;
            case NodeKind::zone_name:
                when.zone = Word{reader.slice(span), span};
                break;
            default:
                break;
        }
    }
    return when;
}

// Dates, times of day and words behind a comma, in the order typed.
std::optional<Days> lower_days(const NodeReader& reader, NodeRange nodes, grammar::LineKind kind) {
    Days days;
    bool first = true;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        const Span span = reader.at(i).span;
        if (reader.at(i).kind == NodeKind::reason) {
            days.reason = Word{reader.slice(span), span};
        } else if (reader.at(i).kind == NodeKind::clock) {
            // Only one of a day's sessions can be meant, not a part of a day.
            const bool names_one =
                kind == grammar::LineKind::cancelled || kind == grammar::LineKind::moved;
            const auto clock = lower_clock(reader, span);
            if (!clock) return std::nullopt;
            if (!names_one) {
                reader.report(Code::line_end, span, {reader.said(span)});
                return std::nullopt;
            }
            (days.last ? days.last_clock : days.clock) = Clock{*clock, span};
        } else if (reader.at(i).kind == NodeKind::date) {
            const auto day = lower_date(reader, span);
            if (!day) return std::nullopt;
            if (first) {
                days.first = *day;
            } else {
                days.last = *day;
            }
            first = false;
        }
    }
    return days;
}

std::optional<Slot> lower_slot(const NodeReader& reader, NodeRange nodes) {
    Slot slot;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        const Span span = reader.at(i).span;
        switch (reader.at(i).kind) {
            case NodeKind::weekday:
                slot.weekday = lower_weekday(reader, span);
                break;
            case NodeKind::date:
                slot.day = lower_date(reader, span);
                if (!slot.day) return std::nullopt;
                break;
            case NodeKind::clock: {
                const auto clock = lower_clock(reader, span);
                if (!clock) return std::nullopt;
                slot.clock = {*clock, span};
                break;
            }
            case NodeKind::time_limit:
                slot.time_limit = lower_time(reader, i + 1);
                if (!slot.time_limit) return std::nullopt;
                break;
            case NodeKind::slot_group_name:
                slot.group = Word{reader.slice(span), span};
                break;
            default:
                slot.sessions.push_back({reader.slice(span), span});
                break;
        }
    }
    return slot;
}

std::optional<Did> lower_did(const NodeReader& reader, NodeRange nodes) {
    Did did;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        const Span span = reader.at(i).span;
        if (reader.at(i).kind == NodeKind::date) {
            const auto day = lower_date(reader, span);
            if (!day) return std::nullopt;
            did.day = *day;
        } else {
            did.names.push_back({reader.slice(span), span});
        }
    }
    return did;
}

}  // namespace stave::syntax
