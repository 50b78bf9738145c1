#include "compiler/program/exact.hpp"

#include <chrono>
#include <concepts>
#include <optional>
#include <string>
#include <type_traits>
#include <variant>

namespace stave::program {

namespace {

template <typename Value>
concept Plain = std::integral<Value> || std::is_enum_v<Value>;

template <typename Value, typename... Others>
constexpr bool is_one_of = (std::same_as<Value, Others> || ...);

// Takes every value apart into all of its fields, so that one that is new does not compile until
// it is named here. What is named and not added is a place in the text, or follows from the rest.
class Adder {
public:
    Adder(const std::vector<WideHash>& movements, const WideHash& names)
        : movements_(movements), names_(names) {}

    [[nodiscard]] WideHash hash() const { return hasher_.hash(); }

    void add(Plain auto value) { hasher_.add_number(static_cast<std::uint64_t>(value)); }

    void add(const std::string& text) {
        hasher_.add_number(text.size());
        hasher_.add(text);
    }

    template <typename Value>
    void add(const std::vector<Value>& values) {
        hasher_.add_number(values.size());
        for (const Value& value : values)
            add(value);
    }

    template <typename Value>
    void add(const std::optional<Value>& value) {
        add(value.has_value());
        if (value) add(*value);
    }

    template <typename... Values>
    void add(const std::variant<Values...>& value) {
        hasher_.add_number(value.index());
        std::visit([this](const auto& held) { this->add(held); }, value);
    }

    void add(const std::chrono::year_month_day& day) {
        add_all(static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                static_cast<unsigned>(day.day()));
    }

    void add(std::chrono::weekday day) { add(day.c_encoding()); }
    void add(std::chrono::minutes time) { add(time.count()); }
    void add(std::chrono::sys_seconds time) { add(time.time_since_epoch().count()); }
    void add(Ratio ratio) { add_all(ratio.numerator(), ratio.denominator()); }

    void add(const Quantity& quantity) {
        const auto& [value, unit] = quantity;
        add_all(value, unit);
    }

    // Doses.

    template <typename Value>
    requires is_one_of<Value, Load, LowerOnly, HoldAt, SwapHands, LoadChange, Within, Plates,
                       Effort>
    void add(const Value& value) {
        const auto& [field] = value;
        add(field);
    }

    void add(const Sides& sides) {
        const auto& [rule, word, right_first, first_is_said] = sides;
        add_all(rule, word, right_first, first_is_said);
    }

    void add(const Amount& amount) {
        const auto& [form, low, high] = amount;
        add_all(form, low, high);
    }

    void add(const Shift& shift) {
        const auto& [minus, amount] = shift;
        add_all(minus, amount);
    }

    void add(const LoadTerm& term) {
        const auto& [kind, implements, low, high, place, of, per, helps, shift] = term;
        add_all(kind, implements, low, high, place, of, per, helps, shift);
        // The max of any movement that is called so.
        if (!of.empty()) hasher_.add_hash(names_);
    }

    void add(const TempoPhase& phase) {
        const auto& [seconds, explosive] = phase;
        add_all(seconds, explosive);
    }

    void add(const Tempo& tempo) {
        const auto& [phases] = tempo;
        for (const TempoPhase& phase : phases)
            add(phase);
    }

    void add(const Hold& hold) {
        const auto& [time, where] = hold;
        add_all(time, where);
    }

    void add(const Arc& arc) {
        const auto& [first, first_label, second, second_label] = arc;
        add_all(first, first_label, second, second_label);
    }

    void add(const Rest& rest) {
        const auto& [low, high, doing, kind] = rest;
        add_all(low, high, doing, kind);
    }

    void add(const Breath& detail) {
        const auto& [in, out] = detail;
        add_all(in, out);
    }

    void add(const Pause& detail) {
        const auto& [time, where] = detail;
        add_all(time, where);
    }

    void add(const Height& detail) {
        const auto& [over, height] = detail;
        add_all(over, height);
    }

    void add(const Incline& detail) {
        const auto& [values, is_range] = detail;
        add_all(values, is_range);
    }

    void add(const Pieces& detail) {
        const auto& [amounts, rest] = detail;
        add_all(amounts, rest);
    }

    void add(const LoadedBar& bar) {
        const auto& [mass, side] = bar;
        add_all(mass, side);
    }

    // Movements.

    void add(const Fault& fault) {
        const auto& [what, mend] = fault;
        add_all(what, mend);
    }

    void add(const Speed& speed) {
        const auto& [seconds, per] = speed;
        add_all(seconds, per);
    }

    void add(const Technique& technique) {
        const auto& [steps, easier, harder, cautions] = technique;
        add_all(steps, easier, harder, cautions);
    }

    void add(const MovementDefinition& movement) {
        const auto& [name, also, from_library, counted_in, sides, patterns, joints, kit,
                     loaded_with, demands, directions, direction_names, starts_up, speed, technique,
                     cues, faults, span] = movement;
        add_all(name, also, from_library, counted_in, sides, patterns, joints, kit, loaded_with,
                demands, directions, direction_names, starts_up, speed, technique, cues, faults);
    }

    // Sessions.

    void add(const Part& part) {
        const auto& [name, folded_name, definition, counted_by_default, is_game, amounts] = part;
        add_all(name, folded_name, counted_by_default, is_game, amounts);
        add_movement(definition);
    }

    void add(const Item& item) {
        const auto& [parts, sides, loads, tempo, hold, arc, rest, rest_between_sides, rest_after,
                     details, cues, faults, counts, notes, stops, options, substitutes, lacking,
                     span] = item;
        add_all(parts, sides, loads, tempo, hold, arc, rest, rest_between_sides, rest_after,
                details, cues, faults, counts, notes, stops, options, substitutes, lacking);
    }

    void add(const Substitute& substitute) {
        const auto& [item, condition, group] = substitute;
        add_all(item, condition, group);
    }

    void add(const Block& block) {
        const auto& [kind, title, letter, run, rounds, least_rounds, time, off, by_sides,
                     right_first, people, group_size, columns, by_rounds, rest_between_sets,
                     rest_between_rounds, rest_between_movements, rest_between_sides, rest_after,
                     cues, notes, stops, options, items, span] = block;
        add_all(kind, title, letter, run, rounds, least_rounds, time, off, by_sides, right_first,
                people, group_size, columns, by_rounds, rest_between_sets, rest_between_rounds,
                rest_between_movements, rest_between_sides, rest_after, cues, notes, stops, options,
                items);
    }

    void add(const When& when) {
        const auto& [date, clock, time_limit, zone, instant, span] = when;
        add_all(date, clock, time_limit, zone, instant);
    }

    void add(const Methods& methods) {
        const auto& [estimates, has_many_reps, has_rounded, by_steps, step] = methods;
        add_all(estimates, has_many_reps, has_rounded, by_steps, step);
    }

    void add(const PlanWeek& plan_week) {
        const auto& [week, weeks, is_lighter] = plan_week;
        add_all(week, weeks, is_lighter);
    }

    void add(const Session& session) {
        const auto& [number, title, when, place, series, coach, link, pages, effort, plan_week,
                     group, methods, athlete, audience, audience_span, avoid, kit, kit_span, notes,
                     stops, cues, blocks, slug, day, is_sound, span] = session;
        add_all(number, title, when, place, series, coach, link, pages, effort, plan_week, group,
                methods, athlete, audience, avoid, kit, notes, stops, cues, blocks, slug, day,
                is_sound);
    }

    // People.

    void add(const KitThing& thing) {
        const auto& [count, name, sizes, unit] = thing;
        add_all(count, name, sizes, unit);
    }

    void add(const Test& test) {
        const auto& [movement, folded_movement, definition, amount, load, implements, time, date,
                     span] = test;
        add_all(movement, folded_movement, amount, load, implements, time, date);
        add_movement(definition);
    }

    void add(const Avoided& avoided) {
        const auto& [demands, patterns, folded_movements] = avoided;
        add_all(demands, patterns, folded_movements);
    }

    void add(const AgeGroup& age_group) {
        const auto& [bound, years] = age_group;
        add_all(bound, years);
    }

    void add(const Athlete& athlete) {
        const auto& [name, folded_name, slug, weight, age_group, unit, language, rounding, estimate,
                     avoided, kit, says_kit, tests, span] = athlete;
        add_all(name, folded_name, slug, weight, age_group, unit, language, rounding, estimate,
                avoided, kit, says_kit, tests);
    }

    // Plans.

    void add(const PlanSlot& slot) {
        const auto& [weekday, date, clock, time_limit, session_ids, group, span] = slot;
        add_all(weekday, date, clock, time_limit, group);
    }

    void add(const Growth& growth) {
        const auto& [target, folded_target, definition, of, step, is_share, limit, span] = growth;
        add_all(target, folded_target, of, step, is_share, limit);
        add_movement(definition);
    }

    void add(const Plan& plan) {
        const auto& [name, slug, first, last, weeks, zone, place, slots, growths, days_off, moves,
                     lighter_weeks, waves, is_sound, span] = plan;
        add_all(name, slug, zone, place, growths);
    }

private:
    template <typename... Values>
    void add_all(const Values&... values) {
        (add(values), ...);
    }

    // Also its index: a session's dump has it, and its revision is a hash of that.
    void add_movement(const std::optional<std::uint32_t>& definition) {
        add(definition);
        if (definition) hasher_.add_hash(movements_[*definition]);
    }

    WideHasher hasher_;
    const std::vector<WideHash>& movements_;
    const WideHash& names_;
};

template <typename Value>
WideHash hash_of(const Value& value, const std::vector<WideHash>& movements,
                 const WideHash& names) {
    Adder adder(movements, names);
    adder.add(value);
    return adder.hash();
}

}  // namespace

Exact::Exact(const std::vector<MovementDefinition>& movements) {
    Adder names(movements_, names_);
    for (const MovementDefinition& movement : movements) {
        movements_.push_back(hash_of(movement, {}, {}));
        names.add(movement.name);
        names.add(movement.also);
    }
    names_ = names.hash();
}

WideHash Exact::of(const Session& session) const {
    return hash_of(session, movements_, names_);
}

WideHash Exact::of(const Athlete& athlete) const {
    return hash_of(athlete, movements_, names_);
}

WideHash Exact::of(const Plan& plan) const {
    return hash_of(plan, movements_, names_);
}

WideHash Exact::of(const PlanSlot& slot) const {
    return hash_of(slot, movements_, names_);
}

WideHash Exact::of_all_movements() const {
    WideHasher hasher;
    for (const WideHash& movement : movements_)
        hasher.add_hash(movement);
    return hasher.hash();
}

}  // namespace stave::program
