#include "compiler/wording/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "compiler/source/utf8.hpp"
#include "compiler/wording/joining.hpp"

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
    const std::string unit = list.front().low.unit == Unit::reps
                                 ? std::string{}
                                 : std::string(plural(list.front().low.unit));
    return beside(succession(language, words, rising_pair), unit);
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
            return to_decimal(amount.low.value);
        case AmountForm::range:
            return fmt::format("{}–{}", to_decimal(amount.low.value),
                               to_decimal(amount.high.value));
        case AmountForm::at_least:
        case AmountForm::total:
            return to_decimal(amount.low.value);
        case AmountForm::best_of:
            return "best of " + to_decimal(amount.low.value);
        case AmountForm::build_to:
            return amount.low == amount.high
                       ? "build to " + to_decimal(amount.low.value)
                       : fmt::format("build to {}–{}", to_decimal(amount.low.value),
                                     to_decimal(amount.high.value));
        case AmountForm::open_ladder:
            return fmt::format("{}, {}, {} and so on", to_decimal(amount.low.value),
                               to_decimal(amount.low.value + amount.high.value),
                               to_decimal(amount.low.value + amount.high.value * Ratio(2)));
        case AmountForm::max:
            break;
    }
    return "max";
}

std::string unit_of(Language, const Amount& amount) {
    const Unit unit = amount.low.unit;
    if (amount.form == AmountForm::best_of) return "";
    if (amount.form == AmountForm::total || amount.form == AmountForm::at_least) {
        std::string text = unit == Unit::reps ? "" : std::string(plural(unit));
        append(text, " ", amount.form == AmountForm::total ? "in all" : "or more");
        return text;
    }
    if (unit == Unit::reps || is_clock(amount)) return "";
    if (amount.form == AmountForm::max) {
        if (dimension(unit) == Dimension::time) return "time";
        if (dimension(unit) == Dimension::length) return "distance";
        return std::string(plural(unit));
    }
    if (unit == Unit::degree) return "°";
    const bool one = amount.form == AmountForm::exact && amount.low.value == Ratio(1);
    return std::string(one ? singular(unit) : plural(unit));
}

std::string amount(Language language, const Amount& amount) {
    if (is_clock(amount)) return clock_words(language, *as_clock(amount.low));
    const std::string unit = unit_of(language, amount);
    const std::string number = number_of(language, amount);
    if (amount.form == AmountForm::open_ladder) {
        return beside(to_decimal(amount.low.value), unit) + ", then " +
               to_decimal(amount.high.value) + " more each round";
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
    const Unit unit = first.low.unit;
    return beside(join(words, "+"), unit == Unit::reps ? "" : plural(unit));
}

std::string pieces(Language language, const program::Pieces& split) {
    std::vector<std::string> words;
    for (const Amount& piece : split.amounts)
        words.push_back(number_of(language, piece));
    const Unit unit = split.amounts.front().low.unit;
    const std::string text =
        beside(join(words, split.rest ? "+" : "-"), unit == Unit::reps ? "" : plural(unit));
    return text;
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

std::string sides(Language, program::Sides sides) {
    static constexpr std::string_view words[] = {
#define STAVE_SIDE_WORD(id, word) word,
#include "grammar/keywords.def"
    };
    switch (sides.rule) {
        case program::SideRule::unsided:
        // Its detail says it: "then hands swapped".
        case program::SideRule::swapped:
            return "";
        case program::SideRule::each:
            return fmt::format("each {}", words[static_cast<std::size_t>(sides.word)]);
        case program::SideRule::alternating:
            return "alternating";
        case program::SideRule::there_and_back:
            return "there and back";
        case program::SideRule::left:
            return "left";
        case program::SideRule::right:
            break;
    }
    return "right";
}

std::string sides(Language language, const program::Block& block, const Item& item) {
    const bool block_says_it = block.by_sides && item.sides.rule == program::SideRule::each;
    return block_says_it ? "" : sides(language, item.sides);
}

std::string time_for(Language language, const program::Block& block, const Item& item) {
    const bool timed = dimension(item.parts.front().amounts.front().low.unit) == Dimension::time;
    const bool is_goal = block.run == program::RunKind::intervals && !timed;
    return is_goal ? "in " + quantity(language, block.time) : "";
}

std::string work(Language language, const program::Block& block, const Item& item) {
    const bool once = block.by_rounds && equal_amounts(item);
    std::string text = once ? set_amount(language, item, 0) : amounts(language, item);
    append(text, " ", sides(language, block, item));
    append(text, " ", time_for(language, block, item));
    append(text, " @ ", loads(language, item));
    return text;
}

std::string dose(Language language, const program::Block& block, const Item& item) {
    std::string text = work(language, block, item);
    append(text, ", ", details(language, block, item));
    append(text, "; ", rest_behind(language, block, item));
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
