#include "compiler/fit/inventory.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "compiler/names/names.hpp"

namespace stave::fit {

namespace {

constexpr std::int64_t usual_bar_kg = 20;
constexpr std::int64_t plates_in_pair = 2;

bool is_mass(const program::KitThing& thing) {
    return thing.unit && dimension(*thing.unit) == Dimension::mass && !thing.sizes.empty();
}

bool has_word(std::string_view folded, std::string_view word) {
    const std::size_t at = folded.find(word);
    if (at == std::string_view::npos) return false;
    const std::size_t end = at + word.size();
    const bool begins = at == 0 || folded[at - 1] == ' ';
    const bool ends = end == folded.size() || folded[end] == ' ' || folded.substr(end) == "s";
    return begins && ends;
}

// What plates are put on. A bar to hang from is none.
bool is_bar(std::string_view folded) {
    constexpr std::array hanging{"pull", "chin", "dip", "wall"};
    if (std::ranges::any_of(hanging, [&](std::string_view one) { return folded.starts_with(one); }))
        return false;
    return has_word(folded, "barbell") || has_word(folded, "bar") || has_word(folded, "landmine");
}

// What is listed twice is there twice.
void add_stock(std::vector<Stock>& stocks, const Stock& more) {
    const auto same = std::ranges::find(stocks, more.mass, &Stock::mass);
    if (same == stocks.end()) {
        stocks.push_back(more);
    } else {
        same->count += more.count;
    }
}

void add_plates(const program::KitThing& thing, std::string_view folded, Inventory& inventory) {
    const std::int64_t pairs = pairs_in(thing, folded);
    if (pairs == 0) return;
    for (const Ratio size : thing.sizes)
        add_stock(inventory.plates, {{size, *thing.unit}, pairs});
}

void add_bar(const program::KitThing& thing, const std::string& folded, Inventory& inventory) {
    if (!is_mass(thing)) {
        inventory.bars.push_back({folded, {Ratio(usual_bar_kg), Unit::kilogram}});
        return;
    }
    for (const Ratio size : thing.sizes)
        inventory.bars.push_back({folded, {size, *thing.unit}});
}

// "2 pairs of dumbbells 8 kg" are dumb-bells, four of them.
program::KitThing singly(const program::KitThing& thing) {
    program::KitThing single = thing;
    single.name = fold_name(thing.name);
    if (!is_pairs(single.name)) return single;
    const std::size_t of = single.name.find("of");
    single.name.erase(0, std::min(single.name.find_first_not_of(' ', of + 2), single.name.size()));
    single.count *= 2;
    return single;
}

// "kettlebell 16 kg, 2 kettlebells 24 kg" are one thing of two weights.
void add_implement(const program::KitThing& said, Inventory& inventory) {
    const program::KitThing thing = singly(said);
    const std::string& folded = thing.name;
    const auto same = [&](const Implements& one) {
        return one.folded_name == folded || one.folded_name + 's' == folded ||
               one.folded_name == folded + 's';
    };
    auto found = std::ranges::find_if(inventory.implements, same);
    if (found == inventory.implements.end()) {
        inventory.implements.push_back({folded, {}});
        found = std::prev(inventory.implements.end());
    }
    for (const Ratio size : thing.sizes)
        add_stock(found->stocks, {{size, *thing.unit}, thing.count});
}

}  // namespace

bool is_pairs(std::string_view folded) {
    return folded.starts_with("pair of") || folded.starts_with("pairs of");
}

bool is_plates(std::string_view folded) {
    return has_word(folded, "plate") || folded == "pair of" || folded == "pairs of";
}

std::int64_t pairs_in(const program::KitThing& plates, std::string_view folded) {
    const bool is_one_each = plates.count == 1;
    return is_pairs(folded) || is_one_each ? plates.count : plates.count / plates_in_pair;
}

Inventory take_stock(const std::vector<program::KitThing>& kit) {
    Inventory inventory;
    for (const program::KitThing& thing : kit) {
        const std::string folded = fold_name(thing.name);
        const bool has_mass = is_mass(thing) && std::ranges::all_of(thing.sizes, [](Ratio one) {
                                  return one > Ratio(0);
                              });
        if (is_plates(folded)) {
            if (has_mass) add_plates(thing, folded, inventory);
        } else if (folded.starts_with("collar")) {
            if (has_mass) inventory.collars = {thing.sizes.front() * Ratio(2), *thing.unit};
        } else if (is_bar(folded)) {
            add_bar(thing, folded, inventory);
        } else if (has_mass) {
            add_implement(thing, inventory);
        }
    }
    std::ranges::stable_sort(inventory.plates, [](const Stock& left, const Stock& right) {
        return in_base_units(left.mass) > in_base_units(right.mass);
    });
    return inventory;
}

}  // namespace stave::fit
