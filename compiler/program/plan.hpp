// Plans: which sessions are held on which days of how many weeks, and what grows from
// week to week.
//
// Plain values with names resolved by `check`. Weeks are counted from the plan's first
// day: week 1 is that day and the six after it.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/quantity/quantity.hpp"
#include "compiler/source/span.hpp"

namespace stave::program {

// A time of day, whole minutes since midnight, and which sessions take turns at it, a
// week each.
struct PlanSlot {
    // On this weekday of every week; or, where `date` is there, on that day alone.
    std::chrono::weekday weekday;
    std::optional<std::chrono::year_month_day> date;
    std::chrono::minutes clock{0};
    std::optional<Quantity> time_limit;
    // Indices into Program::sessions; never empty where the plan is sound.
    std::vector<std::uint32_t> session_ids;
    // Who comes; empty for everybody.
    std::string group;
    Span span;
};

// What grows. `load`: the masses or watts. `share_of_max`: percent of a tested max.
// `amount`: reps, steps, times, distances. `sets` and `rounds`: how many of them.
enum class GrowthOf : std::uint8_t { load, share_of_max, amount, sets, rounds };

// A movement or a block grows by `step` in each week that counts, from what the session
// says.
struct Growth {
    // A movement's name or a block's title, as typed and as names are compared.
    std::string target;
    std::string folded_target;
    // Index into Program::movements, where the files define the movement.
    std::optional<std::uint32_t> definition;
    GrowthOf of = GrowthOf::load;
    // > 0. Sets and rounds are counted in reps, which stand for plain numbers.
    Quantity step;
    // `step` is a share of the value that the session says.
    bool is_share = false;
    // No value grows beyond it.
    std::optional<Quantity> limit;
    Span span;
};

// Days without a session. `is_cancelled`: the session was to be held; else nobody
// expected one.
struct DaysOff {
    std::chrono::year_month_day first;
    // Equal to `first` for one day.
    std::chrono::year_month_day last;
    // Of the one session that is meant, where not all of the day's are.
    std::optional<std::chrono::minutes> clock;
    bool is_cancelled = false;
    // As typed, or empty.
    std::string reason;
    Span span;
};

struct Move {
    std::chrono::year_month_day from;
    std::optional<std::chrono::minutes> from_clock;
    std::chrono::year_month_day to;
    // The time stays where none is said.
    std::optional<std::chrono::minutes> to_clock;
    std::string reason;
    Span span;
};

// Week `week`, or every `week`-th one where `is_every`, does `share` less: 2/5 for 40 %.
struct LighterWeek {
    std::int64_t week = 1;
    bool is_every = false;
    Ratio share;
    Span span;
};

// Growth runs for `weeks` weeks and begins again `steps` steps higher than it began
// before.
struct Waves {
    std::int64_t weeks = 1;
    std::int64_t steps = 1;
    Span span;
};

struct Plan {
    std::string name;
    // Identity: lower-case ASCII letters, digits and hyphens; unique in the program; never
    // empty.
    std::string slug;
    std::chrono::year_month_day first;
    std::chrono::year_month_day last;
    // The weeks from `first` to `last`; the last one may be cut short.
    std::int64_t weeks = 1;
    // Empty: times are wall-clock times wherever the athlete is.
    std::string zone;
    // Of sessions that say none.
    std::string place;
    std::vector<PlanSlot> slots;
    std::vector<Growth> growths;
    std::vector<DaysOff> days_off;
    std::vector<Move> moves;
    std::vector<LighterWeek> lighter_weeks;
    std::optional<Waves> waves;
    // None of its lines holds an error.
    bool is_sound = true;
    Span span;
};

// Where in a plan a session is held; weeks from 1.
struct PlanWeek {
    std::int64_t week = 1;
    std::int64_t weeks = 1;
    bool is_lighter = false;

    friend bool operator==(const PlanWeek&, const PlanWeek&) = default;
};

}  // namespace stave::program
