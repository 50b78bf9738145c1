// The syntax of a file: its lines in order, typed, with remarks kept.
//
// Quantities carry the unit as written; a unit that stands once at the end of a
// list or range has been given to all its values. Nothing is resolved yet:
// whether a line may stand where it stands, what a bare number counts and what
// a name refers to is for `check`. Views point into the SourceFile, which must
// outlive the document.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "compiler/quantity/quantity.hpp"
#include "compiler/source/span.hpp"
#include "compiler/syntax/box.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::syntax {

struct Word {
    std::string_view text;
    Span span;
};

// How a number was written; `compound` is two units, as in 1 h 15 min, and `multiple` a
// share in percent that was written as 1.5 x.
enum class NumberForm : std::uint8_t { plain, fraction, clock, compound, multiple };

// A number with its unit; without one, `has_unit` is false and the unit is reps.
// A compound is in its smaller unit.
struct Value {
    Quantity quantity;
    bool has_unit = false;
    NumberForm form = NumberForm::plain;
    Span span;
};

enum class SeriesForm : std::uint8_t { single, range, list, ladder, max };

// What a word before or behind makes of the numbers: "5 or more", "30 total",
// "2 up by 2", "best of 3", "build to 3", "ladder 1..5".
enum class Extent : std::uint8_t { none, or_more, total, up_by, best_of, build_to, ladder };

// `single`: one value. `range`: two, rising. `list`: two or more, joined by `-`.
// `ladder`: its turning points. `max`: none. In a list a value may be missing:
// `max`.
struct Series {
    SeriesForm form = SeriesForm::single;
    Extent extent = Extent::none;
    // Of "max m".
    std::optional<Unit> max_unit;
    std::vector<std::optional<Value>> values;
    // Of a ladder, 1 unless said.
    std::int64_t step = 1;
    // Of "2 up by 2".
    Box<Value> up_step;
    Span span;
};

enum class SideRule : std::uint8_t { each, alternating, there_and_back, left, right };

struct Side {
    SideRule rule = SideRule::each;
    grammar::SideWord word = grammar::SideWord::side;
    Span span;
};

// One amount of a bracket, nothing for `max`; `times` as in 3 x 2.
struct GroupPart {
    std::optional<Value> amount;
    std::optional<Value> times;
};

// "(2 + 2 + 2, rest 15 s)".
struct Group {
    std::vector<GroupPart> parts;
    std::optional<Value> rest;
    Span span;
};

// `sets` x the one part or the group, `waves` of the one part, or one part for
// each joined movement.
struct WorkStep {
    std::optional<Value> sets;
    Box<Value> waves;
    std::vector<Series> parts;
    Box<Group> group;
    Span span;
};

struct Work {
    WorkStep first;
    // What follows behind `then`, in order.
    std::vector<WorkStep> next;
    // The time to do it in.
    Box<Value> within;
    std::optional<Side> side;
    Span span;
};

enum class LoadKind : std::uint8_t {
    // A number and its unit: kg, lb, W, %.
    measured,
    band,
    bodyweight,
    empty_bar,
    last_time,
    // `weight` % of `reference`.
    share,
    // The load that can be lifted `weight` times.
    rep_max,
    // `weight` per `per`: a pace, a speed, a rate.
    rate,
    // The pace of a test over `weight`.
    test_pace,
    // Scales of effort.
    effort_share,
    rpe,
    reserve,
    zone,
    heart_rate,
};

struct LoadShift {
    bool minus = false;
    Series amount;
};

struct LoadTerm {
    LoadKind kind = LoadKind::measured;
    // Behind `then`: another set's load begins.
    bool follows_then = false;
    // Of a band: it carries a part of the weight.
    bool helps = false;
    Box<Value> implements;
    Series weight;
    Box<Word> reference;
    Box<Value> per;
    // Where it is held, or the band's name.
    std::string_view label;
    Box<LoadShift> shift;
    Span span;
};

// Four phases; -1 is X.
struct Tempo {
    std::int64_t phases[4] = {0, 0, 0, 0};
    Span span;
};

// Only the lowering, in this time.
struct LowerOnly {
    Value time;
    Span span;
};

struct Breath {
    bool in = true;
    Value time;
    Span span;
};

struct Hold {
    Value time;
    std::string_view label;
    Span span;
};

struct HoldAt {
    Value angle;
    Span span;
};

struct Pause {
    Value time;
    std::string_view label;
    Span span;
};

struct Angle {
    Value value;
    std::string_view label;
};

struct Arc {
    Angle first;
    std::optional<Angle> second;
    Span span;
};

// "from 20 cm": standing on it. "over 30 cm": crossing it.
struct Height {
    bool over = false;
    Value value;
    Span span;
};

struct Incline {
    Series value;
    Span span;
};

enum class RestKind : std::uint8_t { timed, as_needed, as_the_work, walk_back, distance };
enum class RestPlace : std::uint8_t { unsaid, rounds, sets, movements, sides, stations, blocks };

struct Rest {
    RestKind kind = RestKind::timed;
    // Of `timed` and `distance`, and of `as_needed` where it says about how long.
    Value low;
    // Equal to `low` where no range was written.
    Value high;
    bool has_time = false;
    std::string_view doing;
    RestPlace place = RestPlace::unsaid;
    Span span;
};

// How long the rest before it takes, about.
struct About {
    Value time;
    Span span;
};

struct LoadChange {
    bool rises = true;
    Span span;
};

struct SwapHands {
    Value every;
    Span span;
};

// The whole once more, with the hands changed over.
struct Swapped {
    Span span;
};

struct EachWave {
    Value step;
    bool up = true;
    Span span;
};

struct SideFirst {
    bool left = true;
    Span span;
};

// When a substitute is done: "no sandbag", "knees hurt".
struct Condition {
    Word reason;
};

struct Effort {
    LoadTerm term;
};

using Detail =
    std::variant<Tempo, LowerOnly, Breath, Hold, HoldAt, Pause, Arc, Height, Incline, Rest, About,
                 LoadChange, SwapHands, Swapped, EachWave, SideFirst, Condition, Effort>;

struct Day {
    std::chrono::year_month_day date;
    Span span;
};

struct Dose {
    std::optional<Work> work;
    std::vector<LoadTerm> load;
    Span load_span;
    // Of a test.
    Box<Day> on;
    // In the order typed; of each kind but Rest and Effort at most one.
    std::vector<Detail> details;
};

enum class EveryScope : std::uint8_t { unsaid, next_movement, all_movements };

struct Every {
    Value time;
    EveryScope scope = EveryScope::unsaid;
};

struct SideOrder {
    bool left_first = true;
    Span span;
};

struct Rounds {
    std::int64_t low = 1;
    // Equal to `low` where no range was written.
    std::int64_t high = 1;
    Span span;
};

// How a block runs; each clause at most once.
struct Format {
    std::optional<Rounds> rounds;
    Box<Value> as_many_in;
    Box<Span> for_time;
    Box<Value> cap;
    Box<Every> every;
    Box<Value> on;
    Box<Value> off;
    Box<SideOrder> whole_block;
    Box<Value> people;
    // 2 for pairs and so on.
    Box<Value> group_size;
    std::vector<Rest> rests;
};

struct When {
    std::optional<Word> weekday;
    std::chrono::year_month_day date;
    Span date_span;
    std::chrono::minutes clock{0};
    Span clock_span;
    std::optional<Value> time_limit;
    std::optional<Word> zone;
};

struct KitThing {
    std::int64_t count = 1;
    std::string_view name;
    Span name_span;
    std::vector<Value> sizes;
    Span span;
};

struct Kit {
    std::vector<KitThing> things;
};

struct Fault {
    Word what;
    Word mend;
};

struct Names {
    std::vector<Word> names;
};

struct Starts {
    bool up = true;
};

// A weight, a number of weeks, an effort.
struct Measure {
    Value value;
};

struct Clock {
    std::chrono::minutes minutes{0};
    Span span;
};

// A day or a span of days, and why.
struct Days {
    Day first;
    // Of the one session that is meant, where the day has several.
    std::optional<Clock> clock;
    std::optional<Day> last;
    // Where a session is moved to another time.
    std::optional<Clock> last_clock;
    std::optional<Word> reason;
};

// A time on a day of the week, or on one `day`, and which sessions take turns on it.
struct Slot {
    std::optional<Word> weekday;
    std::optional<Day> day;
    Clock clock;
    std::optional<Value> time_limit;
    std::vector<Word> sessions;
    std::optional<Word> group;
};

// Week `week`, or every so many weeks.
struct Lighter {
    std::int64_t week = 1;
    bool is_every = false;
    Span week_span;
    Value by;
};

struct Waves {
    std::int64_t weeks = 1;
    std::int64_t steps = 1;
    Span span;
};

// What is counted: what the unit says, or sets or rounds, which are no units.
enum class GrowthCount : std::uint8_t { unit, sets, rounds };

struct GrowthAmount {
    GrowthCount count = GrowthCount::unit;
    Value value;
};

struct Growth {
    GrowthAmount step;
    std::optional<Word> reference;
    std::optional<GrowthAmount> limit;
};

struct Did {
    Day day;
    std::vector<Word> names;
};

struct CountedIn {
    std::vector<std::pair<Unit, Span>> units;
};

// Nothing in `side`: both sides at once.
struct SidesLine {
    std::optional<Side> side;
};

struct PatternLine {
    std::vector<grammar::Pattern> patterns;
};

struct SpeedLine {
    Value amount;
    Value per;
};

// Text, place, zone and titles are words; the rest have forms of their own.
using Body = std::variant<std::monostate, Word, Dose, Format, When, Kit, Fault, Rest, CountedIn,
                          SidesLine, PatternLine, SpeedLine, Names, Starts, Measure, Days, Slot,
                          Lighter, Waves, Growth, Did>;

struct Line {
    grammar::LineKind kind = grammar::LineKind::blank;
    // An error in the line has been reported; `body` holds nothing.
    bool is_broken = false;
    // A line of a routine with blanks to be filled in; `body` holds nothing.
    bool is_deferred = false;
    Span span;
    Word head;
    // What the head says behind its opener; a session's number; a movement's names
    // are in `names` as well.
    Word title;
    std::vector<Word> names;
    Body body;
    Span body_span;
    Span remark;
};

struct Document {
    std::vector<Line> lines;
    // The parts of the text that come from the movement library, in order.
    std::vector<Span> library;
};

}  // namespace stave::syntax
