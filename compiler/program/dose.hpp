// What one set asks for: amounts, sides, loads, rests and further details. Plain values of
// the checked program.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "compiler/quantity/quantity.hpp"
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

// A load of a bar and the weights on each side of it, heaviest first; the bar alone has none.
struct LoadedBar {
    Quantity mass;
    std::vector<Quantity> side;
};

// How each load is made that an item asks for, once, in the order of its sets; never empty.
struct Plates {
    std::vector<LoadedBar> loads;
};

// How hard, said as a detail.
struct Effort {
    LoadTerm term;
};

using Detail = std::variant<LowerOnly, Breath, Pause, HoldAt, Height, Incline, SwapHands,
                            LoadChange, Within, Pieces, Plates, Effort>;

}  // namespace stave::program
