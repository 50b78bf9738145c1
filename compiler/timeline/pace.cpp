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
        default:
            break;
    }
    const bool fast = travels_fast(part.name);
    note(fast ? AssumptionKind::default_travel_speed : AssumptionKind::default_carry_speed);
    return rounded_product(in_base_units(amount),
                           fast ? travel_seconds_per_metre : carry_seconds_per_metre, milliseconds);
}

// Seconds by the movement's own speed, where its unit fits the amount's.
std::optional<Ratio> defined_seconds(const program::Program& program, const program::Part& part,
                                     Quantity amount) {
    if (!part.definition) return std::nullopt;
    const auto& speed = program.movements[*part.definition].speed;
    const bool counts = dimension(amount.unit) == Dimension::count;
    const Unit unit = counts ? amount.unit : Unit::metre;
    if (!speed || speed->per != unit) return std::nullopt;
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

Ratio set_seconds(const program::Program& program, const program::Item& item,
                  const program::Part& part, std::size_t set, const AssumptionNote& note) {
    const Amount& amount = part.amounts[set];
    if (amount.form == AmountForm::max) {
        note(AssumptionKind::max_seconds);
        return max_seconds;
    }
    if (amount.form == AmountForm::range) note(AssumptionKind::range_counts_upper_end);
    const Quantity most = amount.high;
    if (dimension(most.unit) == Dimension::time) return in_base_units(most);
    Ratio seconds;
    if (item.tempo) {
        seconds = most.value * tempo_seconds(*item.tempo, note);
    } else if (const auto defined = defined_seconds(program, part, most)) {
        seconds = *defined;
    } else {
        seconds = default_seconds(part, most, note);
    }
    const bool holds = item.hold && dimension(most.unit) == Dimension::count;
    return holds ? seconds + most.value * in_base_units(item.hold->time) : seconds;
}

}  // namespace stave::timeline
