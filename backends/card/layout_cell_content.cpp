#include "backends/card/layout_cell_content.hpp"

#include <algorithm>
#include <string>

#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using program::Amount;
using program::Item;

// Units of more letters are words.
constexpr std::size_t longest_sign = 3;

// "max" is a word, a range and joined amounts are two numbers: smaller, so that
// they take little more room than two figures.
TextStyle amount_style(const Style& style, const Item& item, const program::Amount& amount) {
    switch (amount.form) {
        case program::AmountForm::max:
        case program::AmountForm::build_to:
        case program::AmountForm::best_of:
        case program::AmountForm::open_ladder:
            return {Face::condensed_bold, style.size(style.sheet->type.word)};
        case program::AmountForm::range:
            return {Face::condensed_bold, style.size(style.sheet->type.pair)};
        case program::AmountForm::exact:
        case program::AmountForm::at_least:
        case program::AmountForm::total:
        case program::AmountForm::blank:
            break;
    }
    if (item.find<program::Pieces>() != nullptr)
        return {Face::condensed_bold, style.size(style.sheet->type.word)};
    if (item.parts.size() > 1) return {Face::condensed_bold, style.size(style.sheet->type.pair)};
    return style.big();
}

// Behind a part's number: its unit, then for the last part the time that is given for it.
std::string unit_words(const Context& context, const program::Block& block, const Item& item,
                       std::size_t part, std::size_t set) {
    std::string unit = wording::unit_of(context.language, item.parts[part].amounts[set]);
    if (part + 1 < item.parts.size()) return unit;
    const std::string time = wording::time_for(context.language, block, item);
    if (!unit.empty() && !time.empty()) unit += ' ';
    return unit + time;
}

}  // namespace

program::Block in_passes(const program::Block& block) {
    program::Block shown = block;
    if (!block.by_sides) return shown;
    const auto twice = [](auto& values) {
        const auto once = values;
        values.insert(values.end(), once.begin(), once.end());
    };
    for (Item& item : shown.items) {
        for (program::Part& part : item.parts)
            twice(part.amounts);
        if (item.loads.size() > 1) twice(item.loads);
    }
    return shown;
}

Mark side_of_pass(const program::Block& block, bool first_pass) {
    return first_pass == block.right_first ? Mark::right : Mark::left;
}

bool is_done_on(const Item& item, Mark side) {
    return item.sides.rule !=
           (side == Mark::right ? program::SideRule::left : program::SideRule::right);
}

std::size_t sets_in_pass(const program::Block& block, const Item& item) {
    return block.by_sides ? item.set_count() / 2 : item.set_count();
}

std::vector<Run> amount_runs(const Context& context, const program::Block& block, const Item& item,
                             std::size_t set) {
    const Style& style = context.style;
    std::vector<Run> runs;
    for (std::size_t part = 0; part < item.parts.size(); ++part) {
        const program::Amount& amount = item.parts[part].amounts[set];
        const bool last = part + 1 == item.parts.size();
        const std::string unit = unit_words(context, block, item, part, set);
        const bool shares_unit =
            !last && item.parts[part + 1].amounts[set].low.unit == amount.low.unit &&
            wording::unit_of(context.language, item.parts[part + 1].amounts[set]).empty() ==
                unit.empty();
        std::string number = part == 0 ? "" : "+";
        const auto* split = item.find<program::Pieces>();
        number += split == nullptr ? wording::number_of(context.language, amount)
                                   : wording::pieces(context.language, *split);
        const TextStyle size = amount_style(style, item, amount);
        if (!runs.empty() && runs.back().style.size == size.size) {
            runs.back().text += number;
        } else {
            runs.push_back({size, number, runs.empty() ? 0 : cell_gap::unit});
        }
        // The pieces of a set name their unit themselves.
        if (split == nullptr && !shares_unit && !unit.empty())
            runs.push_back({style.unit(), unit, cell_gap::unit});
    }
    return runs;
}

Centipoints width_of(const Context& context, const std::vector<Run>& runs) {
    Centipoints width = 0;
    for (const Run& run : runs) {
        width += run.gap + context.fonts.measure(run.style.face, run.style.size, run.text);
    }
    return width;
}

Centipoints draw_runs(Piece& piece, const Context& context, const std::vector<Run>& runs,
                      Centipoints x, Centipoints baseline) {
    for (const Run& run : runs) {
        x += run.gap;
        draw(piece, x, baseline, run.style, run.text);
        x += context.fonts.measure(run.style.face, run.style.size, run.text);
    }
    return x;
}

bool has_unit_below(const Context& context, const program::Block& block, const Item& item) {
    if (item.find<program::Pieces>() != nullptr) return false;
    bool word = false;
    for (std::size_t set = 0; set < item.set_count(); ++set) {
        const program::Amount& first = item.parts.front().amounts[set];
        const std::string unit = unit_words(context, block, item, item.parts.size() - 1, set);
        const bool one_unit = std::ranges::all_of(item.parts, [&](const program::Part& part) {
            return part.amounts[set].low.unit == first.low.unit;
        });
        if (!one_unit || unit.empty()) return false;
        word = word || unit.size() > longest_sign;
    }
    return word;
}

std::vector<Mark> box_marks(const program::Block& block, const Item& item, std::size_t set) {
    using program::SideRule;
    const SideRule rule = item.sides.rule;
    if (rule == SideRule::there_and_back) return {Mark::first, Mark::second};
    if (block.by_sides) {
        const Mark side = side_of_pass(block, set < sets_in_pass(block, item));
        if (!is_done_on(item, side)) return {};
        return {side};
    }
    switch (rule) {
        case SideRule::each:
            if (item.sides.word == program::SideWord::way) return {Mark::first, Mark::second};
            if (item.sides.right_first) return {Mark::right, Mark::left};
            return {Mark::left, Mark::right};
        case SideRule::swapped:
        case SideRule::there_and_back:
            return {Mark::first, Mark::second};
        case SideRule::left:
            return {Mark::left};
        case SideRule::right:
            return {Mark::right};
        case SideRule::unsided:
        case SideRule::alternating:
            break;
    }
    return {Mark::none};
}

std::string_view letter_of(const Context& context, Mark mark) {
    switch (mark) {
        case Mark::left:
            return context.word(wording::Word::left_letter);
        case Mark::right:
            return context.word(wording::Word::right_letter);
        case Mark::first:
            return "1";
        case Mark::second:
            return "2";
        case Mark::none:
            break;
    }
    return "";
}

std::string column_number(const Context& context, const program::Block& block, std::size_t set,
                          std::size_t sets) {
    if (!block.by_sides) return std::to_string(set + 1);
    const std::size_t in_pass = sets / 2;
    return std::string(letter_of(context, side_of_pass(block, set < in_pass))) +
           std::to_string(set % in_pass + 1);
}

bool is_optional(const program::Block& block, std::size_t set_in_pass) {
    return block.least_rounds > 0 && static_cast<std::int64_t>(set_in_pass) >= block.least_rounds;
}

Centipoints boxes_width(const Style& style, const program::Block& block, const Item& item) {
    const std::size_t boxes = std::max(box_marks(block, item, 0).size(),
                                       box_marks(block, item, item.set_count() - 1).size());
    const auto count = static_cast<Centipoints>(boxes);
    if (style.tick_box() == 0 || item.is_blank()) return 0;
    return count * style.tick_box() + (count - 1) * cell_gap::box;
}

void draw_boxes(Piece& piece, const Context& context, const program::Block& block, const Item& item,
                std::size_t set, Centipoints x, Centipoints y) {
    if (context.style.tick_box() == 0 || item.is_blank()) return;
    const bool optional = is_optional(block, set % sets_in_pass(block, item));
    const BoxLine line = optional ? BoxLine::dotted : BoxLine::solid;
    for (const Mark mark : box_marks(block, item, set)) {
        tick_box(piece, context.fonts, x, y, context.style.tick_box(), letter_of(context, mark),
                 line);
        x += context.style.tick_box() + cell_gap::box;
    }
}

bool is_ladder(const Item& item) {
    if (item.parts.size() != 1 || item.set_count() < 3) return false;
    const std::vector<Amount>& amounts = item.parts.front().amounts;
    const bool plain = std::ranges::all_of(amounts, [&](const Amount& amount) {
        return amount.form == program::AmountForm::exact &&
               amount.low.unit == amounts.front().low.unit;
    });
    if (!plain || item.find<program::Pieces>() != nullptr) return false;
    const auto value = [](const Amount& amount) { return amount.low.value; };
    return amounts.front().low.value != amounts.back().low.value &&
           (std::ranges::is_sorted(amounts, {}, value) ||
            std::ranges::is_sorted(amounts, std::ranges::greater{}, value));
}

bool equal_loads(const Item& item) {
    return std::ranges::all_of(
        item.loads, [&](const program::Load& load) { return load == item.loads.front(); });
}

Centipoints load_width(const Context& context, const Item& item) {
    const TextStyle style = context.style.load();
    Centipoints widest = 0;
    for (std::size_t set = 0; set < item.loads.size(); ++set) {
        const std::string load = wording::set_load(context.language, item, set);
        widest = std::max(widest, context.fonts.measure(style.face, style.size, load));
    }
    return widest;
}

bool wants_loads_in_cells(const Context& context, const Item& item) {
    return item.loads.size() > 1 && !equal_loads(item) &&
           load_width(context, item) <= context.sheet().widest_load;
}

}  // namespace stave::card::layout
