#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "compiler/wording/joining.hpp"
#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::wording {

namespace {

using program::Amount;
using program::AmountForm;
using program::Item;
using program::Load;
using program::LoadKind;
using program::LoadTerm;

// What the notation calls the own weight.
constexpr std::string_view bodyweight = "bodyweight";

// More than the own weight is said as a multiple of it: "1.5 × bodyweight".
bool is_multiple(const LoadTerm& term) {
    constexpr std::int64_t percent = 100;
    return term.kind == LoadKind::share_of && term.of == bodyweight &&
           term.low.value > Ratio(percent);
}

// A term without the weight's unit, so that a list can name the unit once.
std::string mass_number(Language language, const LoadTerm& term) {
    const Ratio scale = is_multiple(term) ? Ratio(1, 100) : Ratio(1);
    std::string low = decimal(language, term.low.value * scale);
    if (term.low == term.high) return low;
    return fmt::format("{}–{}", low, decimal(language, term.high.value * scale));
}

std::string implements(std::int64_t count, std::string_view thing) {
    return count == 1 ? std::string(thing) : fmt::format("{}{}×{}{}", count, nbsp, nbsp, thing);
}

std::string band_text(Language language, const LoadTerm& term) {
    const std::int64_t count = term.implements;
    std::string text(noun(language, Noun::bands, plural_of(language, count)));
    if (!term.place.empty()) text = said(language, Word::named_band, {text, term.place});
    if (count != 1) text = beside(std::to_string(count), text);
    return term.helps ? said(language, Word::helping, {text}) : text;
}

// A scale with its number behind it: "RPE 8", "zone 2".
std::string scale_text(Language language, std::string_view scale, const LoadTerm& term) {
    return fmt::format("{}{}{}", scale, nbsp, mass_number(language, term));
}

// "2:10", "58.5 s": as a pace is read from a watch.
std::string pace_time(Language language, Quantity time) {
    constexpr std::int64_t minute = 60;
    const Ratio seconds = in_base_units(time);
    if (seconds < Ratio(minute)) return beside(decimal(language, seconds), "s");
    return clock_digits(language, split_time(seconds));
}

std::string rate_text(Language language, const LoadTerm& term) {
    const Amount amount{term.low == term.high ? AmountForm::exact : AmountForm::range, term.low,
                        term.high};
    std::string what = wording::amount(language, amount);
    if (dimension(term.low.unit) == Dimension::time) {
        what = pace_time(language, term.low);
        if (term.low != term.high) what += "–" + pace_time(language, term.high);
    }
    const bool one = term.per.value == Ratio(1);
    return said(language, Word::rate,
                {what, one ? std::string(unit_word(language, term.per.unit, Plural::one))
                           : quantity(language, term.per)});
}

// Behind the number of a share.
std::string share_text(Language language, const LoadTerm& term) {
    const std::string_view own = word(language, Word::bodyweight);
    if (is_multiple(term)) return fmt::format("×{}{}", nbsp, own);
    if (term.of == bodyweight) return std::string(word(language, Word::share_of_bodyweight));
    return said(language, Word::share_of, {term.of});
}

// The load without what is added to it and where it is held.
std::string base_text(Language language, const LoadTerm& term) {
    switch (term.kind) {
        case LoadKind::mass:
            return implements(term.implements,
                              beside(mass_number(language, term), plural(term.low.unit)));
        case LoadKind::band:
            return band_text(language, term);
        case LoadKind::bodyweight:
            return std::string(word(language, Word::bodyweight));
        case LoadKind::empty_bar:
            return std::string(word(language, Word::empty_bar));
        case LoadKind::last_time:
            return std::string(word(language, Word::last_time));
        case LoadKind::share_of_max:
            return implements(term.implements, beside(mass_number(language, term),
                                                      word(language, Word::share_of_max)));
        case LoadKind::share_of:
            return implements(term.implements,
                              beside(mass_number(language, term), share_text(language, term)));
        case LoadKind::rep_max:
            return beside(mass_number(language, term), word(language, Word::rep_max));
        case LoadKind::rate:
            return rate_text(language, term);
        case LoadKind::test_pace:
            return said(language, Word::test_pace, {quantity(language, term.low)});
        case LoadKind::power:
            return beside(mass_number(language, term), "W");
        case LoadKind::effort_share:
            return beside(mass_number(language, term), word(language, Word::effort_share));
        case LoadKind::rpe:
            return scale_text(language, word(language, Word::rpe), term);
        case LoadKind::reserve:
            return beside(mass_number(language, term), word(language, Word::in_reserve));
        case LoadKind::zone:
            return scale_text(language, word(language, Word::zone), term);
        case LoadKind::heart_rate:
            break;
    }
    return scale_text(language, word(language, Word::heart_rate), term);
}

std::string shift_text(Language language, const program::Shift& shift) {
    return said(language, shift.minus ? Word::minus : Word::plus,
                {quantity(language, shift.amount)});
}

std::string term_text(Language language, const LoadTerm& term) {
    std::string text = base_text(language, term);
    for (const program::Shift& shift : term.shift)
        append(text, " ", shift_text(language, shift));
    const bool named = term.kind == LoadKind::band;
    return named || term.place.empty() ? text : text + ' ' + term.place;
}

// Loads whose list can say the unit, or what they are of, once.
bool names_unit_once(LoadKind kind) {
    return kind == LoadKind::mass || kind == LoadKind::share_of_max || kind == LoadKind::share_of ||
           kind == LoadKind::power || kind == LoadKind::rpe || kind == LoadKind::effort_share ||
           kind == LoadKind::zone || kind == LoadKind::reserve;
}

// What stands before and behind a list's numbers.
struct Frame {
    std::string_view before;
    std::string behind;
};

Frame frame_of(Language language, const LoadTerm& term) {
    switch (term.kind) {
        case LoadKind::share_of_max:
            return {"", std::string(word(language, Word::share_of_max))};
        case LoadKind::share_of:
            return {"", share_text(language, term)};
        case LoadKind::power:
            return {"", "W"};
        case LoadKind::effort_share:
            return {"", std::string(word(language, Word::effort_share))};
        case LoadKind::reserve:
            return {"", std::string(word(language, Word::in_reserve))};
        case LoadKind::rpe:
            return {word(language, Word::rpe), ""};
        case LoadKind::zone:
            return {word(language, Word::zone), ""};
        default:
            return {"", std::string(plural(term.low.unit))};
    }
}

// Whether the loads of successive sets differ in their weight alone.
bool only_weights_differ(const std::vector<Load>& list) {
    const LoadTerm& first = list.front().terms.front();
    return std::ranges::all_of(list, [&](const Load& load) {
        const LoadTerm& term = load.terms.front();
        return load.terms.size() == 1 && term.kind == first.kind && names_unit_once(term.kind) &&
               term.low == term.high && term.implements == first.implements &&
               term.low.unit == first.low.unit && term.place == first.place &&
               term.of == first.of && is_multiple(term) == is_multiple(first) && term.shift.empty();
    });
}

// "bodyweight minus 30-20-10 kg": whether the loads differ in that amount alone.
bool only_shifts_differ(const std::vector<Load>& list) {
    const LoadTerm& first = list.front().terms.front();
    if (first.shift.size() != 1) return false;
    return std::ranges::all_of(list, [&](const Load& load) {
        LoadTerm term = load.terms.front();
        if (load.terms.size() != 1 || term.shift.size() != 1) return false;
        if (term.shift.front().amount.unit != first.shift.front().amount.unit) return false;
        term.shift.front().amount = first.shift.front().amount;
        return term == first;
    });
}

std::string differing_shifts(Language language, const std::vector<Load>& list) {
    std::vector<std::string> numbers;
    for (const Load& one : list)
        numbers.push_back(decimal(language, one.terms.front().shift.front().amount.value));
    const LoadTerm& first = list.front().terms.front();
    const program::Shift& shift = first.shift.front();
    const bool rising_pair =
        list.size() == 2 && shift.amount.value < list[1].terms.front().shift.front().amount.value;
    const std::string shifts =
        beside(succession(language, numbers, rising_pair), plural(shift.amount.unit));
    return base_text(language, first) + ' ' +
           said(language, shift.minus ? Word::minus : Word::plus, {shifts});
}

std::string differing_loads(Language language, const std::vector<Load>& list) {
    if (only_shifts_differ(list)) return differing_shifts(language, list);
    std::vector<std::string> words;
    if (!only_weights_differ(list)) {
        for (const Load& one : list)
            words.push_back(load(language, one));
        return join(words, ", ");
    }
    for (const Load& one : list)
        words.push_back(mass_number(language, one.terms.front()));
    const LoadTerm& first = list[0].terms.front();
    const bool rising_pair = list.size() == 2 && first.low.value < list[1].terms.front().low.value;
    const Frame frame = frame_of(language, first);
    std::string weights = succession(language, words, rising_pair);
    if (!frame.behind.empty()) weights = beside(weights, frame.behind);
    if (!frame.before.empty()) weights = fmt::format("{}{}{}", frame.before, nbsp, weights);
    const std::string text = implements(first.implements, weights);
    return first.place.empty() ? text : text + ' ' + first.place;
}

}  // namespace

std::string load(Language language, const LoadTerm& term) {
    return term_text(language, term);
}

std::string load(Language language, const Load& load) {
    std::vector<std::string> words;
    for (const LoadTerm& term : load.terms)
        words.push_back(term_text(language, term));
    return join(words, word(language, Word::and_between));
}

std::string set_load(Language language, const Item& item, std::size_t set) {
    const Load& one = item.loads[set];
    return only_shifts_differ(item.loads) ? shift_text(language, one.terms.front().shift.front())
                                          : load(language, one);
}

std::string shared_load(Language language, const Item& item) {
    if (item.loads.empty() || !only_shifts_differ(item.loads)) return "";
    return base_text(language, item.loads.front().terms.front());
}

std::string loads(Language language, const Item& item) {
    if (item.loads.empty()) return "";
    const bool equal =
        std::ranges::all_of(item.loads, [&](const Load& one) { return one == item.loads.front(); });
    return equal ? load(language, item.loads.front()) : differing_loads(language, item.loads);
}

}  // namespace stave::wording
