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
#include "grammar/vocabulary.hpp"

namespace stave::syntax {

struct Word {
    std::string_view text;
    Span span;
};

// A number with its unit; without one, `has_unit` is false and the unit is reps.
struct Value {
    Quantity quantity;
    bool has_unit = false;
    Span span;
};

enum class SeriesForm : std::uint8_t { single, range, list, ladder, max };

// `single`: one value. `range`: two, rising. `list`: two or more, joined by `-`
// or `then`. `ladder`: its turning points. `max`: none. In a list a value may be
// missing: `max`.
struct Series {
    SeriesForm form = SeriesForm::single;
    std::vector<std::optional<Value>> values;
    // Of a ladder, 1 unless said.
    std::int64_t step = 1;
    Span span;
};

enum class SideRule : std::uint8_t { each, alternating, left, right };

struct Side {
    SideRule rule = SideRule::each;
    grammar::SideWord word = grammar::SideWord::side;
    Span span;
};

// `sets` x the one part, or one part for each joined movement.
struct Work {
    std::optional<Value> sets;
    std::vector<Series> parts;
    std::optional<Side> side;
    Span span;
};

enum class LoadKind : std::uint8_t { mass, band, bodyweight };

struct LoadTerm {
    LoadKind kind = LoadKind::mass;
    std::optional<Value> implements;
    Series weight;
    // Where it is held, or the band's name.
    std::string_view label;
    Span span;
};

// Four phases; -1 is X.
struct Tempo {
    std::int64_t phases[4] = {0, 0, 0, 0};
    Span span;
};

struct Hold {
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

enum class RestPlace : std::uint8_t { unsaid, rounds, sets, movements, sides };

struct Rest {
    Value low;
    // Equal to `low` where no range was written.
    Value high;
    std::string_view doing;
    RestPlace place = RestPlace::unsaid;
    Span span;
};

// What must be missing for a substitute.
struct IfNo {
    Word kit;
};

using Detail = std::variant<Tempo, Hold, Arc, Rest, IfNo>;

struct Dose {
    std::optional<Work> work;
    std::vector<LoadTerm> load;
    Span load_span;
    // In the order typed; of each kind but Rest at most one.
    std::vector<Detail> details;
};

struct Format {
    std::optional<Value> rounds;
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
                          SidesLine, PatternLine, SpeedLine>;

struct Line {
    grammar::LineKind kind = grammar::LineKind::blank;
    // An error in the line has been reported; `body` holds nothing.
    bool is_broken = false;
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
};

}  // namespace stave::syntax
