#include "compiler/wording/joining.hpp"
#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::wording {

namespace {

std::string_view estimate_name(Language language, program::Estimate estimate) {
    switch (estimate) {
        case program::Estimate::chart:
            return word(language, Word::load_chart);
        case program::Estimate::spread:
            return word(language, Word::all_seven_equations);
        default:
            return grammar::estimate_word(estimate);
    }
}

}  // namespace

std::string methods(Language language, const program::Methods& methods) {
    std::string names;
    for (const program::Estimate estimate : methods.estimates)
        append(names, ", ", estimate_name(language, estimate));
    std::string text;
    if (!names.empty()) text = said(language, Word::estimated_loads, {names});
    if (methods.has_many_reps) append(text, " ", word(language, Word::estimated_from_many));
    if (methods.has_rounded) append(text, " ", word(language, Word::rounded_to_kit));
    if (methods.by_steps) {
        const Quantity step = methods.step;
        append(text, " ", said(language, Word::rounded_to_steps, {quantity(language, step)}));
    }
    return text;
}

}  // namespace stave::wording
