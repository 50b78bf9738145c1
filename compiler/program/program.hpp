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

#include "compiler/quantity/quantity.hpp"
#include "compiler/source/span.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::program {

// How the two sides of the body share an amount. The amount is for each side
// with `each`, for both together with `alternating`.
enum class SideRule : std::uint8_t { unsided, each, alternating, left, right };

using SideWord = grammar::SideWord;

struct Sides {
    SideRule rule = SideRule::unsided;
    SideWord word = SideWord::side;

    friend bool operator==(const Sides&, const Sides&) = default;
};

enum class AmountForm : std::uint8_t { exact, range, max };

// What one set asks for. `exact`: low == high. `range`: low < high, one unit.
// `max`: as many as possible; low.unit says of what, values are 0.
struct Amount {
    AmountForm form = AmountForm::exact;
    Quantity low;
    Quantity high;

    friend bool operator==(const Amount&, const Amount&) = default;
};

enum class LoadKind : std::uint8_t { mass, band, bodyweight };

// One implement or a pair. `mass`: low <= high, both > 0, of dimension mass,
// the weight of one implement. `place` is where it is held ("overhead",
// "left"), or empty; for a band it is the band's name.
struct LoadTerm {
    LoadKind kind = LoadKind::mass;
    std::int64_t implements = 1;
    Quantity low;
    Quantity high;
    std::string place;

    friend bool operator==(const LoadTerm&, const LoadTerm&) = default;
};

// Everything an athlete holds during one set; never empty.
struct Load {
    std::vector<LoadTerm> terms;

    friend bool operator==(const Load&, const Load&) = default;
};

// Seconds for lowering, low pause, lifting, high pause; `explosive` is an X in
// the phase, counted as 1 s.
struct TempoPhase {
    std::int64_t seconds = 0;
    bool explosive = false;

    friend bool operator==(const TempoPhase&, const TempoPhase&) = default;
};
struct Tempo {
    TempoPhase phases[4];

    friend bool operator==(const Tempo&, const Tempo&) = default;
};

// A still position at the end of each repetition; `where` as typed or empty.
struct Hold {
    Quantity time;
    std::string where;
};

// The range of motion asked for, in degrees. One value: from the joint's zero.
struct Arc {
    Quantity first;
    std::string first_label;
    std::optional<Quantity> second;
    std::string second_label;
};

// A pause with a length; high == low unless a range was written. `doing` is
// what fills it ("easy row"), or empty.
struct Rest {
    Quantity low;
    Quantity high;
    std::string doing;
};

struct Fault {
    std::string what;
    std::string mend;

    friend bool operator==(const Fault&, const Fault&) = default;
};

struct Item;

// What an athlete may do instead, and what must be missing for it (or empty).
struct Substitute;

// One movement of an item and its amounts, one for each set of the item.
struct Part {
    std::string name;
    // Index into Program::movements, where the files define the movement.
    std::optional<std::uint32_t> definition;
    // No unit is written and no definition says what is counted, so reps are.
    bool counted_by_default = false;
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
    // Its own first, then those of its movements' definitions.
    std::vector<std::string> cues;
    std::vector<Fault> faults;
    std::vector<std::string> counts;
    std::vector<std::string> notes;
    std::vector<std::string> stops;
    std::vector<Substitute> substitutes;
    Span span;

    [[nodiscard]] std::size_t set_count() const { return parts.front().amounts.size(); }
};

struct Substitute {
    Item item;
    std::string if_missing;
};

enum class BlockKind : std::uint8_t { warm_up, sets, superset, circuit, cool_down };

// Whether items alternate within a round (superset, circuit) or each item does
// all its sets before the next begins (warm-up, sets, cool-down without rounds).
struct Block {
    BlockKind kind = BlockKind::sets;
    // As typed, or empty.
    std::string title;
    // 'A' for the session's first block and so on; at most 26 blocks.
    char letter = 'A';
    // 1 where the block has no rounds.
    std::int64_t rounds = 1;
    // Whether items take turns round by round, also where rounds == 1.
    bool by_rounds = false;
    std::optional<Rest> rest_between_sets;
    std::optional<Rest> rest_between_rounds;
    std::optional<Rest> rest_between_movements;
    std::optional<Rest> rest_between_sides;
    std::vector<std::string> cues;
    std::vector<std::string> notes;
    std::vector<std::string> stops;
    std::vector<Item> items;
    Span span;
};

// One thing of a kit line: "2 kettlebells 8 12 kg".
struct KitThing {
    std::int64_t count = 1;
    std::string name;
    std::vector<Ratio> sizes;
    std::optional<Unit> unit;
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

struct Session {
    // Digits or a word between `session` and the colon, or empty.
    std::string number;
    std::string title;
    std::optional<When> when;
    std::string place;
    std::vector<KitThing> kit;
    std::vector<std::string> notes;
    std::vector<std::string> stops;
    std::vector<std::string> cues;
    std::vector<Block> blocks;
    // Identity within the file, from number and title only: lower-case ASCII
    // letters, digits and hyphens; unique in the file; never empty.
    std::string slug;
    Span span;
};

using Pattern = grammar::Pattern;

// How long work takes: seconds for each of a count, or for each metre; rounded to
// a millionth, above 0 and at most a day.
struct Speed {
    Ratio seconds;
    Unit per = Unit::reps;
};

struct MovementDefinition {
    std::string name;
    // What a number counts, the first being what a bare number means when it is
    // alone; empty: reps.
    std::vector<Unit> counted_in;
    // Nothing: not said. `unsided`: works both sides at once.
    std::optional<Sides> sides;
    std::vector<Pattern> patterns;
    std::optional<Speed> speed;
    std::vector<std::string> cues;
    std::vector<Fault> faults;
    Span span;
};

struct Program {
    std::vector<Session> sessions;
    std::vector<MovementDefinition> movements;
};

}  // namespace stave::program
