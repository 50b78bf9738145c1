#include "compiler/timeline/pace.hpp"

#include <algorithm>
#include <optional>
#include <string_view>

#include "grammar/vocabulary.hpp"

namespace stave::timeline {

namespace {

using program::Amount;
using program::AmountForm;

// ACSM position stand (Ratamess et al. 2009, MSSE 41:687-708): moderate lifting
// velocity is 1 to 2 s up and 1 to 2 s down; 3 s is the middle.
constexpr std::int64_t rep_seconds = 3;
// Tudor-Locke et al. 2019 (IJBNPA 16:8): 100 steps per min is a moderate walk.
const Ratio step_seconds(60, 100);
// 12 breaths per min at rest: common practice, from memory.
constexpr std::int64_t breath_seconds = 5;
// A carry or walk at 1.2 m/s, the middle of 1.0 to 1.4: common practice, no source.
const Ratio carry_seconds_per_metre(10, 12);
// A run, ride or row at 2.5 m/s: common practice, no source.
const Ratio travel_seconds_per_metre(10, 25);
// As many as possible: common practice, no source.
constexpr std::int64_t max_seconds = 30;
// Other counts, common practice, no source.
constexpr std::int64_t stroke_seconds = 3;
constexpr std::int64_t jump_seconds = 1;
constexpr std::int64_t throw_seconds = 5;
constexpr std::int64_t lap_seconds = 60;
constexpr std::int64_t length_seconds = 30;
constexpr std::int64_t flight_seconds = 20;

// Ten kilocalories a minute on a rowing machine: common practice, no source.
constexpr std::int64_t kilocalorie_seconds = 6;
// A try at a jump or a throw: common practice, no source.
constexpr std::int64_t try_seconds = 10;
// A rest as needed that does not say about how long: common practice, no source.
constexpr std::int64_t needed_rest_seconds = 60;
// Sets on the way to a heavy one, and the rest between them: common practice, no
// source.
constexpr std::int64_t build_up_sets = 4;
constexpr std::int64_t build_up_rest = 120;

constexpr std::int64_t milliseconds = 1000;

bool travels_fast(std::string_view name) {
    const std::string_view last = name.substr(name.rfind(' ') + 1);
    constexpr std::string_view fast[] = {
#define STAVE_FAST_TRAVEL(word) word,
#include "grammar/keywords.def"
    };
    return std::ranges::any_of(
        fast, [last](std::string_view word) { return grammar::same_word(word, last); });
}

Ratio default_seconds(const program::Part& part, Quantity amount, const AssumptionNote& note) {
    const auto counted = [&](AssumptionKind kind, Ratio seconds_each) {
        note(kind);
        return amount.value * seconds_each;
    };
    switch (amount.unit) {
        case Unit::reps:
            return counted(AssumptionKind::default_rep_seconds, rep_seconds);
        case Unit::steps:
            return counted(AssumptionKind::default_step_cadence, step_seconds);
        case Unit::breaths:
            return counted(AssumptionKind::default_breath_seconds, breath_seconds);
        case Unit::strokes:
            return counted(AssumptionKind::default_count_seconds, stroke_seconds);
        case Unit::jumps:
            return counted(AssumptionKind::default_count_seconds, jump_seconds);
        case Unit::throws:
            return counted(AssumptionKind::default_count_seconds, throw_seconds);
        case Unit::laps:
            return counted(AssumptionKind::default_count_seconds, lap_seconds);
        case Unit::lengths:
            return counted(AssumptionKind::default_count_seconds, length_seconds);
        case Unit::flights:
            return counted(AssumptionKind::default_count_seconds, flight_seconds);
        case Unit::kilocalorie:
            return counted(AssumptionKind::kilocalorie_seconds, kilocalorie_seconds);
        default:
            break;
    }
    return way_seconds(amount, part.name, note);
}

// Seconds by the movement's own speed, where its unit fits the amount's.
std::optional<Ratio> defined_seconds(const program::Program& program, const program::Part& part,
                                     Quantity amount) {
    if (!part.definition) return std::nullopt;
    const auto& speed = program.movements[*part.definition].speed;
    const bool counts = dimension(amount.unit) == Dimension::count;
    const bool travels = dimension(amount.unit) == Dimension::length;
    if (!speed || (!counts && !travels)) return std::nullopt;
    if (speed->per != (counts ? amount.unit : Unit::metre)) return std::nullopt;
    return rounded_product(in_base_units(amount), speed->seconds, milliseconds);
}

Ratio tempo_seconds(const program::Tempo& tempo, const AssumptionNote& note) {
    std::int64_t seconds = 0;
    for (const program::TempoPhase& phase : tempo.phases) {
        seconds += phase.seconds;
        if (phase.explosive) note(AssumptionKind::explosive_counts_one_second);
    }
    return seconds;
}

}  // namespace

std::int64_t directions_of(const program::Program& program, const program::Part& part, Unit unit) {
    if (!part.definition || unit != Unit::reps) return 1;
    return program.movements[*part.definition].directions;
}

Ratio way_seconds(Quantity length, std::string_view name, const AssumptionNote& note) {
    const bool fast = travels_fast(name);
    note(fast ? AssumptionKind::default_travel_speed : AssumptionKind::default_carry_speed);
    return rounded_product(in_base_units(length),
                           fast ? travel_seconds_per_metre : carry_seconds_per_metre, milliseconds);
}

Ratio walk_back_seconds(const program::Item& item, std::size_t set) {
    const Quantity amount = item.parts.front().amounts[set].high;
    if (dimension(amount.unit) != Dimension::length) return {0};
    return rounded_product(in_base_units(amount), carry_seconds_per_metre, milliseconds);
}

Ratio needed_rest() {
    return {needed_rest_seconds};
}

// Seconds for one repetition beyond the movement's own: what is held, paused or
// breathed in it.
static Ratio extra_seconds(const program::Item& item) {
    Ratio extra;
    if (item.hold) extra += in_base_units(item.hold->time);
    if (const auto* pause = item.find<program::Pause>()) extra += in_base_units(pause->time);
    return extra;
}

// Seconds for one repetition where the line says them.
static std::optional<Ratio> said_seconds(const program::Item& item, const AssumptionNote& note) {
    if (item.tempo) return tempo_seconds(*item.tempo, note);
    if (const auto* lower = item.find<program::LowerOnly>()) return in_base_units(lower->time);
    if (const auto* breath = item.find<program::Breath>()) {
        return in_base_units(breath->in) + in_base_units(breath->out);
    }
    return std::nullopt;
}

// "8:00 per mile" for three of them is three times eight minutes, to the millisecond:
// the pace itself is rounded only where the numbers have no room.
static Ratio seconds_at(Ratio amount, Ratio time, Ratio per) {
    constexpr std::int64_t most = 1'000'000;
    const auto is_small = [](Ratio one) {
        return one.numerator() <= most && one.denominator() <= milliseconds;
    };
    if (is_small(amount) && is_small(per)) {
        return rounded_product(amount / per, time, milliseconds);
    }
    return rounded_product(amount, rounded(time / per, most), milliseconds);
}

// Seconds by a pace, a speed or a rate behind the @, where it fits the amount.
static std::optional<Ratio> rated_seconds(const program::Item& item, std::size_t set,
                                          Quantity amount) {
    if (item.loads.empty()) return std::nullopt;
    const program::LoadTerm& term = item.loads[item.loads.size() == 1 ? 0 : set].terms.front();
    if (term.kind != program::LoadKind::rate) return std::nullopt;
    // The slower end of a range.
    const bool pace = dimension(term.low.unit) == Dimension::time;
    const Quantity time = pace ? term.high : term.per;
    const Quantity work = pace ? term.per : term.low;
    const bool fits = dimension(work.unit) == dimension(amount.unit) &&
                      (dimension(work.unit) != Dimension::count || work.unit == amount.unit);
    if (!fits) return std::nullopt;
    const bool length = dimension(amount.unit) == Dimension::length;
    const auto size = [length](Quantity one) { return length ? in_base_units(one) : one.value; };
    return seconds_at(size(amount), in_base_units(time), size(work));
}

// The amount that stands for a set whose amount is open.
static Quantity counted_amount(const Amount& amount, const AssumptionNote& note) {
    switch (amount.form) {
        case AmountForm::range:
            note(AssumptionKind::range_counts_upper_end);
            break;
        case AmountForm::at_least:
            note(AssumptionKind::at_least_counts_least);
            break;
        case AmountForm::open_ladder:
            note(AssumptionKind::open_ladder_counts_first);
            return amount.low;
        default:
            break;
    }
    return amount.high;
}

// Seconds of an amount that is known.
static Ratio paced_seconds(const program::Program& program, const program::Item& item,
                           const program::Part& part, std::size_t set, Quantity most,
                           const AssumptionNote& note) {
    if (dimension(most.unit) == Dimension::time) return in_base_units(most);
    const Ratio turns(directions_of(program, part, most.unit));
    Ratio seconds;
    if (const auto rated = rated_seconds(item, set, most)) {
        seconds = *rated;
    } else if (const auto said = said_seconds(item, note)) {
        seconds = most.value * turns * *said;
    } else if (const auto defined = defined_seconds(program, part, most)) {
        seconds = *defined * turns;
    } else {
        seconds = default_seconds(part, most, note) * turns;
    }
    if (dimension(most.unit) == Dimension::count) {
        seconds += most.value * turns * extra_seconds(item);
    }
    return seconds;
}

Ratio set_seconds(const program::Program& program, const program::Item& item,
                  const program::Part& part, std::size_t set, const AssumptionNote& note) {
    const Amount& amount = part.amounts[set];
    if (const auto* within = item.find<program::Within>()) {
        // Joined movements share it.
        return in_base_units(within->time) / Ratio(static_cast<std::int64_t>(item.parts.size()));
    }
    if (amount.form == AmountForm::best_of) {
        note(AssumptionKind::best_of_seconds);
        return amount.high.value * Ratio(try_seconds);
    }
    const Quantity most = counted_amount(amount, note);
    const bool is_known = amount.form != AmountForm::max || most.value > Ratio(0);
    const Ratio known = is_known ? paced_seconds(program, item, part, set, most, note) : Ratio(0);
    if (amount.form == AmountForm::max) {
        note(AssumptionKind::max_seconds);
        return known + Ratio(max_seconds);
    }
    return amount.form == AmountForm::build_to ? known * Ratio(build_up_sets) : known;
}

Ratio pause_seconds(const program::Item& item, const program::Part& part, std::size_t set,
                    const AssumptionNote& note) {
    Ratio pauses;
    const auto* pieces = item.find<program::Pieces>();
    if (pieces != nullptr && pieces->rest) {
        const auto between = static_cast<std::int64_t>(pieces->amounts.size()) - 1;
        pauses += Ratio(between) * in_base_units(*pieces->rest);
    }
    if (part.amounts[set].form == AmountForm::build_to) {
        note(AssumptionKind::build_up_sets);
        pauses += Ratio((build_up_sets - 1) * build_up_rest);
    }
    return pauses;
}

}  // namespace stave::timeline
