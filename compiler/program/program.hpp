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
#include <variant>
#include <vector>

#include "compiler/program/athlete.hpp"
#include "compiler/program/plan.hpp"
#include "compiler/quantity/quantity.hpp"
#include "compiler/source/span.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::program {

// How the two sides of the body share an amount. The amount is for each side
// with `each`, for both together with `alternating`. `there_and_back` does it
// once each way, and `swapped` once more with the hands changed over.
enum class SideRule : std::uint8_t {
    unsided,
    each,
    alternating,
    there_and_back,
    swapped,
    left,
    right,
};

using SideWord = grammar::SideWord;
using Pattern = grammar::Pattern;
using Demand = grammar::Demand;
using Joint = grammar::Joint;
using LoadedWith = grammar::LoadedWith;

struct Sides {
    SideRule rule = SideRule::unsided;
    SideWord word = SideWord::side;
    // Of `each`: which side comes first, where it is said.
    bool right_first = false;
    bool first_is_said = false;

    friend bool operator==(const Sides&, const Sides&) = default;
};

enum class AmountForm : std::uint8_t {
    exact,
    range,
    max,
    at_least,
    total,
    best_of,
    build_to,
    open_ladder,
    blank,
};

// What one set asks for. `exact`: low == high. `range`: low < high, one unit.
// `max`: as many as possible; low.unit says of what, values are 0, or what the other
// pieces of the set add up to. `at_least`:
// low == high or more. `total`: low == high in as many sets as it takes.
// `blank`: what is asked for has been left out for this athlete; low and high are what it
// was, by which its time is reckoned.
// `best_of`: low == high tries. `build_to`: sets that get heavier, the last of
// them low to high. `open_ladder`: low in the first round, high more in each
// that follows.
struct Amount {
    AmountForm form = AmountForm::exact;
    Quantity low;
    Quantity high;

    friend bool operator==(const Amount&, const Amount&) = default;
};

enum class LoadKind : std::uint8_t {
    mass,
    band,
    bodyweight,
    empty_bar,
    last_time,
    // % of the movement's own tested max.
    share_of_max,
    // % of `of`: a movement's max, "bodyweight", "top set", "training max" ...
    share_of,
    // The load that can be lifted `low` times.
    rep_max,
    // low to high per `per`: a pace (time per distance), a speed, a rate.
    rate,
    // The pace of a test over `low`.
    test_pace,
    power,
    // Scales of effort; plain numbers but for the share.
    effort_share,
    rpe,
    reserve,
    zone,
    heart_rate,
};

// Added to or taken off what it hangs on: kilograms, shares, seconds; > 0.
struct Shift {
    bool minus = false;
    Quantity amount;

    friend bool operator==(const Shift&, const Shift&) = default;
};

// One implement or a pair, or an effort. `mass`: low <= high, both > 0, of
// dimension mass, the weight of one implement. `place` is where it is held
// ("overhead", "left"), or empty; for a band it is the band's name.
struct LoadTerm {
    LoadKind kind = LoadKind::mass;
    std::int64_t implements = 1;
    Quantity low;
    Quantity high;
    std::string place;
    // Of `share_of`.
    std::string of;
    // Of `rate`.
    Quantity per;
    // Of a band: it carries a part of the weight.
    bool helps = false;
    // Nothing, or one.
    std::vector<Shift> shift;

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

enum class RestKind : std::uint8_t { timed, as_needed, as_the_work, walk_back, distance };

// A pause; high == low unless a range was written. `as_needed` may say about how
// long, else low and high are 0, as they are for the two kinds behind it. A `distance` is
// a length, 20 m to 10 km, and is covered by what is done, a walk or a jog. `doing` is
// what fills it ("easy row"), or empty.
struct Rest {
    Quantity low;
    Quantity high;
    std::string doing;
    RestKind kind = RestKind::timed;
};

// Only the lowering counts, and takes this long.
struct LowerOnly {
    Quantity time;
};

// Led by the breath; seconds are those of one breath in and out.
struct Breath {
    Quantity in;
    Quantity out;
};

// A still position within each repetition; `where` as typed or empty.
struct Pause {
    Quantity time;
    std::string where;
};

// Held at this angle of the joint.
struct HoldAt {
    Quantity angle;
};

// Standing on something so high, or crossing it.
struct Height {
    bool over = false;
    Quantity height;
};

// One value, or one for each set; % or degrees.
struct Incline {
    std::vector<Quantity> values;
    // Two values, of which any between them will do.
    bool is_range = false;
};

struct SwapHands {
    Quantity every;
};

// The load that fits the changing amounts is to be worked out.
struct LoadChange {
    bool rises = true;
};

// Each set is to be done in this time.
struct Within {
    Quantity time;
};

// The pieces of one set: of a cluster, with a short rest between them, or the
// rungs of a ladder that is climbed in every set. The item's amounts are their
// sums.
struct Pieces {
    std::vector<Amount> amounts;
    std::optional<Quantity> rest;
};

// The weights on each side of a bar, heaviest first, for each load that is made with it; a
// load of the bar alone has none.
struct Plates {
    std::vector<std::vector<Quantity>> loads;
};

// How hard, said as a detail.
struct Effort {
    LoadTerm term;
};

using Detail = std::variant<LowerOnly, Breath, Pause, HoldAt, Height, Incline, SwapHands,
                            LoadChange, Within, Pieces, Plates, Effort>;

struct Fault {
    std::string what;
    std::string mend;

    friend bool operator==(const Fault&, const Fault&) = default;
};

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
    Span span;

    [[nodiscard]] std::size_t set_count() const { return parts.front().amounts.size(); }

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
    // Of a session that a plan holds: in which of its weeks.
    std::optional<PlanWeek> plan_week;
    // The group of the plan that it is held for, or empty.
    std::string group;
    // Of a session fitted to an athlete whose loads were worked out.
    std::optional<Methods> methods;
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

// How long work takes: seconds for each of a count, or for each metre; rounded to
// a millionth, above 0 and at most a day.
struct Speed {
    Ratio seconds;
    Unit per = Unit::reps;
};

// How a movement goes, in order, and what else is worth knowing of it. Filled for
// every movement; the texts are those of its lines.
struct Technique {
    std::vector<std::string> steps;
    std::vector<std::string> easier;
    std::vector<std::string> harder;
    std::vector<std::string> cautions;
};

struct MovementDefinition {
    std::string name;
    std::vector<std::string> also;
    // It ships with the compiler; the files do not define it.
    bool from_library = false;
    // What a number counts; a bare number counts the first where that is reps or
    // the only one. Empty: reps.
    std::vector<Unit> counted_in;
    // Nothing: not said. `unsided`: works both sides at once.
    std::optional<Sides> sides;
    std::vector<Pattern> patterns;
    std::vector<Joint> joints;
    // Each: names of which one is needed.
    std::vector<std::vector<std::string>> kit;
    // Empty: not said.
    std::vector<LoadedWith> loaded_with;
    std::vector<Demand> demands;
    // Into how many directions one repetition goes, and their names where said.
    std::int64_t directions = 1;
    std::vector<std::string> direction_names;
    // Its first half lifts.
    bool starts_up = false;
    std::optional<Speed> speed;
    Technique technique;
    std::vector<std::string> cues;
    std::vector<Fault> faults;
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
