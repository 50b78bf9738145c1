#include "compiler/check/plan_days.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

#include "compiler/check/lines.hpp"
#include "compiler/civil/date_text.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using Date = std::chrono::year_month_day;
using Minutes = std::chrono::minutes;
using civil::clock_text;
using civil::date_text;

constexpr std::int64_t days_per_week = 7;

bool falls_on(const program::PlanSlot& slot, Date date) {
    return slot.date ? *slot.date == date
                     : slot.weekday == std::chrono::weekday{std::chrono::sys_days(date)};
}

bool report_outside(const program::Plan& plan, const syntax::Day& day, DiagnosticSink& sink) {
    sink.report({Code::day_outside,
                 day.span,
                 {date_text(day.date), date_text(plan.first), date_text(plan.last)},
                 {},
                 {}});
    return false;
}

// The slot's first day behind the other one.
std::chrono::sys_days next_day(const program::PlanSlot& slot, std::chrono::sys_days date) {
    if (slot.date) return std::chrono::sys_days{*slot.date};
    const std::chrono::sys_days tomorrow = date + std::chrono::days{1};
    return tomorrow + (slot.weekday - std::chrono::weekday{tomorrow});
}

// A time of that day, or the next day that has a session.
std::string next_session(const program::Plan& plan, Date date, std::optional<Minutes> clock) {
    const auto here = slots_on(plan, date, std::nullopt);
    if (clock && !here.empty())
        return fmt::format("Write {} {}", date_text(date),
                           clock_text(plan.slots[here.front()].clock));
    std::optional<std::chrono::sys_days> next;
    for (const program::PlanSlot& slot : plan.slots) {
        const std::chrono::sys_days day = next_day(slot, std::chrono::sys_days{date});
        const bool is_later = day > std::chrono::sys_days{date} && is_in_plan(plan, Date{day});
        if (is_later && (!next || day < *next)) next = day;
    }
    return next ? fmt::format("Write a day that has one; the next is {}.", date_text(Date{*next}))
                : "Write a day that has one.";
}

// A day and the time, where one is said.
std::string moment_text(Date date, std::optional<Minutes> clock) {
    return date_text(date) + (clock ? ' ' + clock_text(*clock) : "");
}

std::optional<Minutes> minutes_of(const std::optional<syntax::Clock>& clock) {
    return clock ? std::optional(clock->minutes) : std::nullopt;
}

// Whether something that the line moves may be held on the day at that time.
bool moves_to(const program::Plan& plan, const syntax::Days& move, Date date,
              std::optional<Minutes> clock) {
    if (!move.last || move.last->date != date) return false;
    if (!clock) return true;
    if (move.last_clock) return move.last_clock->minutes == *clock;
    const auto slots = slots_on(plan, move.first.date, minutes_of(move.clock));
    return std::ranges::any_of(slots,
                               [&](std::size_t id) { return plan.slots[id].clock == *clock; });
}

// What the line says, of the day that the other one moves.
std::string said_of(const syntax::Days& days, const syntax::Days& move) {
    std::string text = days.last ? "moved: " : "cancelled: ";
    text += moment_text(move.first.date, minutes_of(move.clock));
    // Where no time is said it stays, which is that of the other line.
    const auto& clock = days.last_clock ? days.last_clock : move.last_clock;
    if (days.last) text += " to " + moment_text(days.last->date, minutes_of(clock));
    return days.reason ? text + ", " + clean_text(days.reason->text) : text;
}

// Something is held on the day of the line, as far as is known.
bool is_held(const program::Plan& plan, const PlanKnown& known, const syntax::Days& days,
             DiagnosticSink& sink) {
    if (!known.has_days) return true;
    const syntax::Day& day = days.first;
    const std::optional<Minutes> clock = minutes_of(days.clock);
    const bool is_inside = is_in_plan(plan, day.date);
    if (is_inside && (!known.has_slots || !slots_on(plan, day.date, clock).empty())) return true;
    Diagnostic moved{
        Code::day_moved_here, day.span, {moment_text(day.date, clock), "", ""}, {}, {}};
    for (const syntax::Days* move : known.moves) {
        if (move == &days || !moves_to(plan, *move, day.date, clock)) continue;
        const bool is_first = moved.related.empty();
        moved.arguments[1]
            .append(is_first ? "" : " and ")
            .append(moment_text(move->first.date, minutes_of(move->clock)));
        moved.arguments[2]
            .append(is_first ? "" : " -- and on a line of its own: ")
            .append(said_of(days, *move));
        moved.related.push_back({move->first.span, "moved here"});
    }
    if (!moved.related.empty()) {
        sink.report(std::move(moved));
        return false;
    }
    if (!is_inside) return report_outside(plan, day, sink);
    std::string said = date_text(day.date);
    if (clock) said += " at " + clock_text(*clock);
    sink.report(
        {Code::day_without_session, day.span, {said, next_session(plan, day.date, clock)}, {}, {}});
    return false;
}

// Two lines about the same session.
bool is_new(const program::Plan& plan, const syntax::Day& day, std::optional<Minutes> clock,
            DiagnosticSink& sink) {
    const auto same_time = [&](std::optional<Minutes> other) {
        return !clock || !other || *clock == *other;
    };
    std::optional<Span> other;
    for (const program::Move& move : plan.moves) {
        if (move.from == day.date && same_time(move.from_clock)) other = move.span;
    }
    for (const program::DaysOff& off : plan.days_off) {
        const bool is_same = off.is_cancelled && off.first == day.date && off.last == day.date;
        if (is_same && same_time(off.clock)) other = off.span;
    }
    if (!other) return true;
    sink.report(
        {Code::day_twice, day.span, {date_text(day.date)}, {}, {{*other, "the other one"}}});
    return false;
}

std::string reason_of(const syntax::Days& days) {
    return days.reason ? clean_text(days.reason->text) : "";
}

bool count_weeks(const syntax::Value& weeks, const std::optional<syntax::Day>& last,
                 program::Plan& plan, DiagnosticSink& sink) {
    // More than lie between the first and the last year of any plan.
    constexpr std::int64_t most_weeks = 4000;
    plan.weeks = std::min(weeks.quantity.value.numerator(), most_weeks);
    plan.last =
        Date{std::chrono::sys_days(plan.first) + std::chrono::days{days_per_week * plan.weeks - 1}};
    if (static_cast<int>(plan.last.year()) > civil::last_year) {
        sink.report({Code::plan_too_long, weeks.span, {date_text(plan.last)}, {}, {}});
        return false;
    }
    if (!last || last->date == plan.last) return true;
    sink.report({Code::plan_length_twice,
                 weeks.span,
                 {date_text(last->date), std::to_string(plan.weeks), date_text(plan.last)},
                 {},
                 {}});
    return false;
}

bool end_on(const syntax::Day& last, program::Plan& plan, DiagnosticSink& sink) {
    if (last.date < plan.first) {
        sink.report({Code::days_reversed,
                     last.span,
                     {date_text(plan.first), date_text(last.date)},
                     {},
                     {}});
        return false;
    }
    plan.last = last.date;
    const auto days =
        (std::chrono::sys_days(last.date) - std::chrono::sys_days(plan.first)).count();
    plan.weeks = days / days_per_week + 1;
    return true;
}

}  // namespace

bool find_range(const syntax::Line& from, const syntax::Line* weeks, program::Plan& plan,
                DiagnosticSink& sink) {
    const auto& days = std::get<syntax::Days>(from.body);
    plan.first = days.first.date;
    const bool is_counted =
        weeks == nullptr ||
        count_weeks(std::get<syntax::Measure>(weeks->body).value, days.last, plan, sink);
    const bool is_ended = !days.last || end_on(*days.last, plan, sink);
    return is_counted && is_ended;
}

bool is_in_plan(const program::Plan& plan, Date date) {
    return date >= plan.first && date <= plan.last;
}

std::vector<std::size_t> slots_on(const program::Plan& plan, Date date,
                                  std::optional<Minutes> clock) {
    std::vector<std::size_t> slots;
    for (std::size_t i = 0; i < plan.slots.size(); ++i) {
        const program::PlanSlot& slot = plan.slots[i];
        if (falls_on(slot, date) && (!clock || slot.clock == *clock)) slots.push_back(i);
    }
    return slots;
}

bool add_days_off(const syntax::Line& line, program::Plan& plan, const PlanKnown& known,
                  DiagnosticSink& sink) {
    const auto& days = std::get<syntax::Days>(line.body);
    const syntax::Day last = days.last.value_or(days.first);
    if (last.date < days.first.date) {
        const std::string from = date_text(days.first.date);
        const std::string to = date_text(last.date);
        sink.report({Code::days_reversed,
                     {days.first.span.begin, last.span.end},
                     {from, to},
                     {{to + " to " + from, {Edit{days.first.span, to}, Edit{last.span, from}}}},
                     {}});
        return false;
    }
    const bool is_cancelled = line.kind == grammar::LineKind::cancelled;
    const std::optional<Minutes> clock = minutes_of(days.clock);
    const bool is_one = is_cancelled && !days.last;
    if (is_one && !is_held(plan, known, days, sink)) return false;
    if (is_one && !is_new(plan, days.first, clock, sink)) return false;
    // Leave may begin before the plan and end behind it.
    const bool is_beside = last.date < plan.first || days.first.date > plan.last;
    if (!is_one && known.has_days && is_beside) return report_outside(plan, days.first, sink);
    plan.days_off.push_back(
        {days.first.date, last.date, clock, is_cancelled, reason_of(days), said_span(line)});
    return true;
}

bool add_move(const syntax::Line& line, program::Plan& plan, const PlanKnown& known,
              DiagnosticSink& sink) {
    const auto& days = std::get<syntax::Days>(line.body);
    if (!days.last || !is_held(plan, known, days, sink)) return false;
    const std::optional<Minutes> from = minutes_of(days.clock);
    if (!is_new(plan, days.first, from, sink)) return false;
    const auto slots = slots_on(plan, days.first.date, from);
    if (slots.size() > 1 && days.last_clock && !from) {
        sink.report(
            {Code::moved_which,
             days.first.span,
             {date_text(days.first.date), std::to_string(slots.size()),
              clock_text(days.last_clock->minutes), clock_text(plan.slots[slots.front()].clock)},
             {},
             {}});
        return false;
    }
    program::Move move{days.first.date, from,           days.last->date, {},
                       reason_of(days), said_span(line)};
    if (days.last_clock) move.to_clock = days.last_clock->minutes;
    plan.moves.push_back(std::move(move));
    return true;
}

}  // namespace stave::check
