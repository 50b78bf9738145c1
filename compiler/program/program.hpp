// The checked program: what the files say, with names resolved, lists matched
// to rounds and every quantity's dimension proved by `check`.
//
// Plain values; text is UTF-8 in NFC without control characters. A span leads
// back to the line a value came from, for diagnostics of later passes.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/program/athlete.hpp"
#include "compiler/program/dose.hpp"
#include "compiler/program/movement.hpp"
#include "compiler/program/plan.hpp"
#include "compiler/quantity/quantity.hpp"
#include "compiler/source/span.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::program {

struct Item;

// What an athlete may do instead, and when.
struct Substitute;

// One movement of an item and its amounts, one for each set of the item.
struct Part {
    std::string name;
    // As names are compared.
    std::string folded_name;
    // Index into Program::movements, where the files define the movement.
    std::optional<std::uint32_t> definition;
    // No unit is written and no definition says what is counted, so reps are.
    bool counted_by_default = false;
    // A game, of which nothing needs to be known.
    bool is_game = false;
    std::vector<Amount> amounts;
};

// What one movement line asks for.
//
// All parts have the same number of amounts, `set_count()` >= 1. In a block of
// N rounds it is N (one amount a round); in a block without rounds these are
// successive sets. `loads` is empty, or holds one load for all sets, or one for
// each set.
struct Item {
    std::vector<Part> parts;
    Sides sides;
    std::vector<Load> loads;
    std::optional<Tempo> tempo;
    std::optional<Hold> hold;
    std::optional<Arc> arc;
    // After each set (in `sets`), or after the item in each round.
    std::optional<Rest> rest;
    std::optional<Rest> rest_between_sides;
    // A `rest` line below the item: a pause once its sets (in rounds: its turn)
    // are done.
    std::optional<Rest> rest_after;
    // Further details in the order typed; at most one of each kind but Effort.
    std::vector<Detail> details;
    // Its own first, then those of its movements' definitions.
    std::vector<std::string> cues;
    std::vector<Fault> faults;
    std::vector<std::string> counts;
    std::vector<std::string> notes;
    std::vector<std::string> stops;
    // What the athlete may choose freely.
    std::vector<std::string> options;
    std::vector<Substitute> substitutes;
    // Of an item fitted to an athlete who has no kit for it: things of which any one would do.
    std::vector<std::string> lacking;
    Span span;

    [[nodiscard]] std::size_t set_count() const { return parts.front().amounts.size(); }

    // Stands in the place of what the athlete that it was fitted to is to avoid.
    [[nodiscard]] bool is_blank() const {
        return parts.front().amounts.front().form == AmountForm::blank;
    }

    // The detail of the kind, or null.
    template <typename Kind>
    [[nodiscard]] const Kind* find() const {
        for (const Detail& detail : details) {
            if (const auto* found = std::get_if<Kind>(&detail)) return found;
        }
        return nullptr;
    }
};

// What may be done instead; or, where `group` says whom it is for ("Level 2",
// "Group B"), what they do.
struct Substitute {
    Item item;
    // "no sandbag", "knees hurt"; or empty.
    std::string condition;
    std::string group;
};

enum class BlockKind : std::uint8_t { warm_up, sets, superset, circuit, stations, cool_down };

// How a block runs. `in_turn`: each item does all its sets before the next
// begins. `rounds`: items take turns. `as_many`: rounds until `time` is up, of
// which the block holds one. `for_time`: rounds as fast as is clean, at most
// `time` where a cap is said. `every_next`: a new movement every `time`;
// `every_all`: all movements every `time`. `intervals`: `time` on and `off` off at
// every station.
enum class RunKind : std::uint8_t {
    in_turn,
    rounds,
    as_many,
    for_time,
    every_next,
    every_all,
    intervals,
};

// Whether items alternate within a round (superset, circuit) or each item does
// all its sets before the next begins (warm-up, sets, cool-down without rounds).
struct Block {
    BlockKind kind = BlockKind::sets;
    // As typed, or empty.
    std::string title;
    // 'A' for the session's first block and so on; at most 26 blocks.
    char letter = 'A';
    RunKind run = RunKind::in_turn;
    // 1 where the block has no rounds.
    std::int64_t rounds = 1;
    // The lower end where a range was written, else 0.
    std::int64_t least_rounds = 0;
    // What RunKind says; 0 for a block for time without a cap.
    Quantity time{Ratio(0), Unit::second};
    Quantity off{Ratio(0), Unit::second};
    // The whole block on one side, then on the other.
    bool by_sides = false;
    bool right_first = false;
    // 0 where not said.
    std::int64_t people = 0;
    std::int64_t group_size = 0;
    // That its movements stand in on the card: 1 or 2, or 0 where the card is free.
    std::int64_t columns = 0;
    // Whether items take turns round by round, also where rounds == 1.
    bool by_rounds = false;
    std::optional<Rest> rest_between_sets;
    std::optional<Rest> rest_between_rounds;
    std::optional<Rest> rest_between_movements;
    std::optional<Rest> rest_between_sides;
    // Before the next block; not counted behind the last one.
    std::optional<Rest> rest_after;
    std::vector<std::string> cues;
    std::vector<std::string> notes;
    std::vector<std::string> stops;
    std::vector<std::string> options;
    std::vector<Item> items;
    Span span;
};

// When a session starts. Without a zone the time is a wall-clock time wherever
// the athlete is; with one it has been resolved to `instant`, which is unique.
struct When {
    std::chrono::year_month_day date;
    // Since midnight, whole minutes.
    std::chrono::minutes clock{0};
    std::optional<Quantity> time_limit;
    std::string zone;
    std::optional<std::chrono::sys_seconds> instant;
    Span span;
};

// By what the loads of a session were worked out for the athlete that it was fitted to.
struct Methods {
    // Equations and the chart, each once, in the order of their first use; empty where no load
    // hangs on a test.
    std::vector<Estimate> estimates;
    // A test of more than 10 reps is among those used.
    bool has_many_reps = false;
    // Loads were rounded to what is there.
    bool has_rounded = false;
    // Where no kit is known: to steps of so much.
    bool by_steps = false;
    Quantity step;
};

struct Session {
    // Digits or a word between `session` and the colon, or empty.
    std::string number;
    std::string title;
    std::optional<When> when;
    std::string place;
    // What it belongs to, and whom to ask; as typed, or empty.
    std::string series;
    std::string coach;
    // An address of http or https as RFC 3986 writes it, in ASCII, or empty.
    std::string link;
    // That the card may take: 1 or 2.
    std::int64_t pages = 1;
    // How hard the whole of it is meant to be, 0 to 10, where it is said.
    std::optional<Ratio> effort;
    // Of a session that a plan holds: in which of its weeks.
    std::optional<PlanWeek> plan_week;
    // The group of the plan that it is held for, or empty.
    std::string group;
    // Of a session fitted to an athlete whose loads were worked out.
    std::optional<Methods> methods;
    // The name of the athlete that it was fitted to, or empty.
    std::string athlete;
    // Whom it is for, by name.
    std::vector<std::string> audience;
    // Of the line that names them.
    Span audience_span;
    // What somebody in the session has to avoid.
    std::vector<Demand> avoid;
    std::vector<KitThing> kit;
    // Of the `kit` line.
    Span kit_span;
    std::vector<std::string> notes;
    std::vector<std::string> stops;
    std::vector<std::string> cues;
    std::vector<Block> blocks;
    // Identity within the file, from number and title only: lower-case ASCII
    // letters, digits and hyphens; unique in the file; never empty.
    std::string slug;
    // Of a session that a plan holds: which of its days, by the day and the group that it
    // was planned for ("20261203-a"), whatever becomes of it. Empty otherwise.
    std::string day;
    // None of its lines holds an error; others are there for their names alone.
    bool is_sound = true;
    Span span;
};

struct Program {
    std::vector<Session> sessions;
    std::vector<Plan> plans;
    std::vector<MovementDefinition> movements;
    std::vector<Athlete> athletes;
    std::vector<Squad> squads;
    std::vector<NamedKit> kits;
};

}  // namespace stave::program
