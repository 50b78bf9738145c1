#include "compiler/fit/fit_paces.hpp"

#include <utility>

namespace stave::fit {

namespace {

using program::LoadTerm;

constexpr std::int64_t tenths = 10;

// Of what length paces of the distance are given.
Ratio split_metres(Ratio metres) {
    constexpr std::int64_t rowing_split = 500;
    constexpr std::int64_t running_split = 1000;
    return (metres / Ratio(rowing_split)).is_whole() ? Ratio(rowing_split) : Ratio(running_split);
}

void fit(const LoadContext& context, const program::Part& part, LoadTerm& term) {
    const program::Test* test = context.maxes.find_time(part.name, part.definition, term.low);
    if (test == nullptr) return;
    const Ratio metres = in_base_units(test->amount);
    const Ratio split = split_metres(metres);
    Ratio seconds = in_base_units(*test->time) * split / metres;
    for (const program::Shift& shift : term.shift) {
        const Ratio by = in_base_units(shift.amount);
        seconds = shift.minus ? seconds - by : seconds + by;
    }
    if (seconds <= Ratio(0)) return;
    term.kind = program::LoadKind::rate;
    term.low = term.high = {rounded(seconds, tenths), Unit::second};
    term.per = {split, Unit::metre};
    term.shift.clear();
}

}  // namespace

void fit_paces(const LoadContext& context, program::Item& item) {
    for (program::Load& load : item.loads) {
        for (LoadTerm& term : load.terms) {
            if (term.kind == program::LoadKind::test_pace) fit(context, item.parts.front(), term);
        }
    }
}

}  // namespace stave::fit
