#include "compiler/wording/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "compiler/source/utf8.hpp"
#include "compiler/wording/joining.hpp"
#include "compiler/wording/words.hpp"

namespace stave::wording {

namespace {

using program::Amount;
using program::AmountForm;
using program::Item;

bool all_equal(const std::vector<Amount>& amounts) {
    return std::ranges::all_of(amounts,
                               [&](const Amount& amount) { return amount == amounts.front(); });
}

// Whether the amount is said in minutes and seconds.
bool is_clock(const Amount& amount) {
    return amount.form == AmountForm::exact && as_clock(amount.low).has_value();
}

// Behind several numbers, the last of them this one; "" for reps.
std::string_view unit_of_list(Language language, const Amount& last) {
    const Unit unit = last.low.unit;
    if (unit == Unit::reps) return "";
    return unit_word(language, unit,
                     last.form == AmountForm::max ? plural_of_unknown(language)
                                                  : plural_of_list(language, last.high.value));
}

std::string differing_amounts(Language language, const std::vector<Amount>& list) {
    const bool one_unit = std::ranges::all_of(list, [&](const Amount& amount) {
        return amount.low.unit == list.front().low.unit && !is_clock(amount);
    });
    const bool plain = std::ranges::all_of(list, [](const Amount& amount) {
        return amount.form == AmountForm::exact || amount.form == AmountForm::max;
    });
    std::vector<std::string> words;
    if (!one_unit || !plain) {
        for (const Amount& one : list)
            words.push_back(amount(language, one));
        return join(words, ", ");
    }
    for (const Amount& one : list)
        words.push_back(number_of(language, one));
    const bool rising_pair = list.size() == 2 && list[0].form == AmountForm::exact &&
                             list[1].form == AmountForm::exact &&
                             list[0].low.value < list[1].low.value;
    return beside(succession(language, words, rising_pair), unit_of_list(language, list.back()));
}

std::string range(Language language, const Amount& amount) {
    return fmt::format("{}–{}", decimal(language, amount.low.value),
                       decimal(language, amount.high.value));
}

// "2, 4, 6" of an open ladder.
std::string first_rungs(Language language, const Amount& ladder) {
    std::vector<std::string> rungs;
    for (std::int64_t rung = 0; rung < 3; ++rung)
        rungs.push_back(decimal(language, ladder.low.value + ladder.high.value * Ratio(rung)));
    return join(rungs, ", ");
}

// Of the number that stands before the amount's unit.
Plural plural_for(Language language, const Amount& amount) {
    switch (amount.form) {
        case AmountForm::exact:
        case AmountForm::at_least:
        case AmountForm::total:
        case AmountForm::blank:
            return plural_of(language, amount.low.value);
        case AmountForm::range:
            return plural_of_range(language, amount.high.value);
        case AmountForm::best_of:
        case AmountForm::build_to:
            return plural_of_range(language, amount.high.value);
        case AmountForm::open_ladder:
            return plural_of_list(language, amount.low.value);
        case AmountForm::max:
            break;
    }
    return plural_of_unknown(language);
}

}  // namespace

std::string quantity(Language language, Quantity quantity) {
    const Amount exact{AmountForm::exact, quantity, quantity};
    return amount(language, exact);
}

std::string number_of(Language language, const Amount& amount) {
    switch (amount.form) {
        case AmountForm::exact:
            if (const auto time = as_clock(amount.low)) return clock_digits(language, *time);
            return decimal(language, amount.low.value);
        case AmountForm::range:
            return range(language, amount);
        case AmountForm::at_least:
        case AmountForm::total:
            return decimal(language, amount.low.value);
        case AmountForm::best_of:
            return said(language, Word::best_of, {decimal(language, amount.low.value)});
        case AmountForm::build_to:
            return said(language, Word::build_to,
                        {amount.low == amount.high ? decimal(language, amount.low.value)
                                                   : range(language, amount)});
        case AmountForm::open_ladder:
            return said(language, Word::and_so_on, {first_rungs(language, amount)});
        case AmountForm::blank:
            return "–";
        case AmountForm::max:
            break;
    }
    return std::string(word(language, Word::max));
}

std::string unit_of(Language language, const Amount& amount) {
    const Unit unit = amount.low.unit;
    if (amount.form == AmountForm::best_of || amount.form == AmountForm::blank) return "";
    if (amount.form == AmountForm::total || amount.form == AmountForm::at_least) {
        std::string text;
        if (unit != Unit::reps) text = unit_word(language, unit, plural_for(language, amount));
        append(text, " ",
               word(language, amount.form == AmountForm::total ? Word::in_all : Word::or_more));
        return text;
    }
    if (unit == Unit::reps || is_clock(amount)) return "";
    if (amount.form == AmountForm::max) {
        if (dimension(unit) == Dimension::time) return std::string(word(language, Word::max_time));
        if (dimension(unit) == Dimension::length)
            return std::string(word(language, Word::max_distance));
    }
    if (unit == Unit::degree) return "°";
    return std::string(unit_word(language, unit, plural_for(language, amount)));
}

std::string amount(Language language, const Amount& amount) {
    if (amount.form == AmountForm::blank) return number_of(language, amount);
    if (is_clock(amount)) return clock_words(language, *as_clock(amount.low));
    const std::string unit = unit_of(language, amount);
    const std::string number = number_of(language, amount);
    if (amount.form == AmountForm::open_ladder) {
        return said(language, Word::more_each_round,
                    {beside(decimal(language, amount.low.value), unit),
                     decimal(language, amount.high.value)});
    }
    return unit == "°" ? number + unit : beside(number, unit);
}

std::string set_amount(Language language, const Item& item, std::size_t set) {
    const Amount& first = item.parts.front().amounts[set];
    if (item.parts.size() == 1) {
        const auto* split = item.find<program::Pieces>();
        return split == nullptr ? amount(language, first) : pieces(language, *split);
    }
    const bool one_unit = std::ranges::all_of(item.parts, [&](const program::Part& part) {
        const Amount& amount = part.amounts[set];
        return amount.low.unit == first.low.unit && !is_clock(amount) &&
               amount.form != AmountForm::at_least;
    });
    std::vector<std::string> words;
    for (const program::Part& part : item.parts) {
        words.push_back(one_unit ? number_of(language, part.amounts[set])
                                 : amount(language, part.amounts[set]));
    }
    if (!one_unit) return join(words, " + ");
    return beside(join(words, "+"), unit_of_list(language, item.parts.back().amounts[set]));
}

std::string pieces(Language language, const program::Pieces& split) {
    std::vector<std::string> words;
    for (const Amount& piece : split.amounts)
        words.push_back(number_of(language, piece));
    return beside(join(words, split.rest ? "+" : "-"),
                  unit_of_list(language, split.amounts.back()));
}

bool equal_amounts(const Item& item) {
    return std::ranges::all_of(item.parts,
                               [](const program::Part& part) { return all_equal(part.amounts); });
}

std::string amounts(Language language, const Item& item) {
    const std::size_t sets = item.set_count();
    const bool joined = item.parts.size() > 1;
    if (equal_amounts(item)) {
        std::string once = set_amount(language, item, 0);
        if (sets == 1) return once;
        const bool split = joined || item.find<program::Pieces>() != nullptr;
        return fmt::format("{}{}×{}{}{}{}", sets, nbsp, nbsp, split ? "(" : "", once,
                           split ? ")" : "");
    }
    if (!joined) return differing_amounts(language, item.parts.front().amounts);
    std::vector<std::string> words;
    for (std::size_t set = 0; set < sets; ++set)
        words.push_back(set_amount(language, item, set));
    return join(words, ", ");
}

std::string sides(Language language, program::Sides sides) {
    static constexpr Word words[] = {
#define STAVE_SIDE_WORD(id, word) Word::each_##id,
#include "grammar/keywords.def"
    };
    switch (sides.rule) {
        case program::SideRule::unsided:
        // Its detail says it: "then hands swapped".
        case program::SideRule::swapped:
            return "";
        case program::SideRule::each:
            return std::string(word(language, words[static_cast<std::size_t>(sides.word)]));
        case program::SideRule::alternating:
            return std::string(word(language, Word::alternating));
        case program::SideRule::there_and_back:
            return std::string(word(language, Word::there_and_back));
        case program::SideRule::left:
            return std::string(word(language, Word::left));
        case program::SideRule::right:
            break;
    }
    return std::string(word(language, Word::right));
}

std::string sides(Language language, const program::Block& block, const Item& item) {
    const bool block_says_it = block.by_sides && item.sides.rule == program::SideRule::each;
    return block_says_it || item.is_blank() ? "" : sides(language, item.sides);
}

std::string time_for(Language language, const program::Block& block, const Item& item) {
    const Amount& first = item.parts.front().amounts.front();
    // As long as possible is counted in time, and still is a goal while a clock runs.
    const bool is_given_time =
        dimension(first.low.unit) == Dimension::time && first.form != AmountForm::max;
    const bool is_goal = block.run == program::RunKind::intervals && !is_given_time;
    return is_goal && !item.is_blank()
               ? said(language, Word::within, {quantity(language, block.time)})
               : "";
}

std::string work(Language language, const program::Block& block, const Item& item) {
    const bool once = block.by_rounds && equal_amounts(item);
    std::string text = once ? set_amount(language, item, 0) : amounts(language, item);
    // "max time left" would be read as what is left of it.
    const Amount& last = item.parts.back().amounts.back();
    const bool ends_in_time =
        last.form == AmountForm::max && dimension(last.low.unit) == Dimension::time;
    append(text, ends_in_time ? ", " : " ", sides(language, block, item));
    append(text, " ", time_for(language, block, item));
    append(text, " @ ", loads(language, item));
    return text;
}

std::string dose(Language language, const program::Block& block, const Item& item) {
    std::string text = work(language, block, item);
    append(text, ", ", details(language, block, item));
    append(text, break_between(language), rest_behind(language, block, item));
    return text;
}

std::string name(const Item& item) {
    std::vector<std::string> words;
    for (const program::Part& part : item.parts)
        words.push_back(part.name);
    return join(words, " + ");
}

std::string display_name(const Item& item) {
    return capitalised(name(item));
}

std::string capitalised(std::string text) {
    // The end of the block Cyrillic: beyond it faces have not every capital.
    constexpr std::int32_t last_letter = 0x45F;
    if (text.empty()) return text;
    const Character first = character_at(text, 0);
    const std::int32_t big = capital(first.code_point);
    if (first.size == 0 || first.code_point > last_letter || big > last_letter) return text;
    return text.replace(0, first.size, encoded(big));
}

}  // namespace stave::wording
