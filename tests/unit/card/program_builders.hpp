// Short ways to write program values in tests; no checks.
#pragma once

#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

#include "compiler/program/program.hpp"

namespace stave::test {

inline program::Amount exactly(Ratio value, Unit unit = Unit::reps) {
    return {program::AmountForm::exact, {value, unit}, {value, unit}};
}

inline program::Amount from_to(Ratio low, Ratio high, Unit unit = Unit::reps) {
    return {program::AmountForm::range, {low, unit}, {high, unit}};
}

inline program::Amount most(Unit unit = Unit::reps) {
    return {program::AmountForm::max, {0, unit}, {0, unit}};
}

inline std::vector<program::Amount> each_of(std::initializer_list<Ratio> values,
                                            Unit unit = Unit::reps) {
    std::vector<program::Amount> amounts;
    for (const Ratio value : values)
        amounts.push_back(exactly(value, unit));
    return amounts;
}

inline std::vector<program::Amount> times(std::size_t sets, program::Amount amount) {
    return std::vector<program::Amount>(sets, amount);
}

inline program::Item movement(std::string name, std::vector<program::Amount> amounts) {
    program::Item item;
    program::Part& part = item.parts.emplace_back();
    part.name = std::move(name);
    part.amounts = std::move(amounts);
    return item;
}

inline program::Item joined(std::string first, std::vector<program::Amount> first_amounts,
                            std::string second, std::vector<program::Amount> second_amounts) {
    program::Item item = movement(std::move(first), std::move(first_amounts));
    program::Part& part = item.parts.emplace_back();
    part.name = std::move(second);
    part.amounts = std::move(second_amounts);
    return item;
}

inline program::LoadTerm weight(Ratio value, Unit unit = Unit::kilogram, std::string place = "",
                                std::int64_t implements = 1) {
    program::LoadTerm term;
    term.implements = implements;
    term.low = term.high = {value, unit};
    term.place = std::move(place);
    return term;
}

inline program::LoadTerm band(std::string name) {
    program::LoadTerm term;
    term.kind = program::LoadKind::band;
    term.place = std::move(name);
    return term;
}

inline program::LoadTerm own_weight() {
    program::LoadTerm term;
    term.kind = program::LoadKind::bodyweight;
    return term;
}

inline std::vector<program::Load> weights(std::initializer_list<Ratio> values) {
    std::vector<program::Load> loads;
    for (const Ratio value : values)
        loads.push_back({{weight(value)}});
    return loads;
}

inline program::Sides each_side(program::SideWord word = program::SideWord::side) {
    return {program::SideRule::each, word};
}

inline program::Rest pause(Ratio value, Unit unit = Unit::second, std::string doing = "") {
    return {{value, unit}, {value, unit}, std::move(doing)};
}

}  // namespace stave::test
