#include "backends/card/layout_cell_content.hpp"

#include <algorithm>
#include <string>

#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using program::Item;

constexpr Centipoints widest_load = points(60);

// Units of more letters are words.
constexpr std::size_t longest_sign = 3;

// "max" is a word, a range and joined amounts are two numbers: smaller, so that
// they take little more room than two figures.
TextStyle amount_style(const Style& style, const Item& item, const program::Amount& amount) {
    switch (amount.form) {
        case program::AmountForm::max:
        case program::AmountForm::build_to:
            return {Face::condensed_bold, style.size(13)};
        case program::AmountForm::range:
        case program::AmountForm::open_ladder:
            return {Face::condensed_bold, style.size(17)};
        case program::AmountForm::exact:
        case program::AmountForm::at_least:
        case program::AmountForm::total:
        case program::AmountForm::best_of:
            break;
    }
    if (item.find<program::Pieces>() != nullptr) return {Face::condensed_bold, style.size(13)};
    if (item.parts.size() > 1) return {Face::condensed_bold, style.size(17)};
    return style.big();
}

}  // namespace

std::vector<Run> amount_runs(const Context& context, const Item& item, std::size_t set) {
    const Style& style = context.style;
    std::vector<Run> runs;
    for (std::size_t part = 0; part < item.parts.size(); ++part) {
        const program::Amount& amount = item.parts[part].amounts[set];
        const bool last = part + 1 == item.parts.size();
        const std::string unit = wording::unit_of(amount);
        const bool shares_unit =
            !last && item.parts[part + 1].amounts[set].low.unit == amount.low.unit &&
            wording::unit_of(item.parts[part + 1].amounts[set]).empty() == unit.empty();
        std::string number = part == 0 ? "" : "+";
        const auto* split = item.find<program::Pieces>();
        number += split == nullptr ? wording::number_of(amount) : wording::pieces(*split);
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

bool has_unit_below(const Item& item) {
    if (item.find<program::Pieces>() != nullptr) return false;
    bool word = false;
    for (std::size_t set = 0; set < item.set_count(); ++set) {
        const program::Amount& first = item.parts.front().amounts[set];
        const std::string unit = wording::unit_of(item.parts.back().amounts[set]);
        const bool one_unit = std::ranges::all_of(item.parts, [&](const program::Part& part) {
            return part.amounts[set].low.unit == first.low.unit;
        });
        if (!one_unit || unit.empty()) return false;
        word = word || unit.size() > longest_sign;
    }
    return word;
}

std::vector<std::string_view> box_letters(const Item& item) {
    switch (item.sides.rule) {
        case program::SideRule::each:
            if (item.sides.right_first) return {"R", "L"};
            return {"L", "R"};
        case program::SideRule::swapped:
        case program::SideRule::there_and_back:
            return {"1", "2"};
        case program::SideRule::left:
            return {"L"};
        case program::SideRule::right:
            return {"R"};
        case program::SideRule::unsided:
        case program::SideRule::alternating:
            break;
    }
    return {""};
}

Centipoints boxes_width(const Style& style, const Item& item) {
    const auto boxes = static_cast<Centipoints>(box_letters(item).size());
    return boxes * style.tick_box() + (boxes - 1) * cell_gap::box;
}

void draw_boxes(Piece& piece, const Context& context, const Item& item, Centipoints x,
                Centipoints y) {
    for (const std::string_view letter : box_letters(item)) {
        tick_box(piece, context.fonts, x, y, context.style.tick_box(), letter);
        x += context.style.tick_box() + cell_gap::box;
    }
}

bool equal_loads(const Item& item) {
    return std::ranges::all_of(
        item.loads, [&](const program::Load& load) { return load == item.loads.front(); });
}

Centipoints load_width(const Context& context, const Item& item) {
    const TextStyle style = context.style.load();
    Centipoints widest = 0;
    for (const program::Load& load : item.loads) {
        widest =
            std::max(widest, context.fonts.measure(style.face, style.size, wording::load(load)));
    }
    return widest;
}

bool wants_loads_in_cells(const Context& context, const Item& item) {
    return item.loads.size() > 1 && !equal_loads(item) && load_width(context, item) <= widest_load;
}

}  // namespace stave::card::layout
