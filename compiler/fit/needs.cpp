#include "compiler/fit/needs.hpp"

#include <algorithm>
#include <utility>

#include "compiler/fit/bands.hpp"
#include "compiler/fit/inventory.hpp"
#include "compiler/names/names.hpp"
#include "compiler/names/things.hpp"

namespace stave::fit {

namespace {

using program::Athlete;
using program::Item;
using program::Part;
using program::Program;

const program::MovementDefinition* definition_of(const Program& program, const Part& part) {
    return part.definition ? &program.movements[*part.definition] : nullptr;
}

bool is_held_overhead(const Item& item) {
    return std::ranges::any_of(item.loads, [](const program::Load& load) {
        return std::ranges::any_of(load.terms, [](const program::LoadTerm& term) {
            return fold_name(term.place) == "overhead";
        });
    });
}

std::optional<std::string> lacking_band(const Athlete& athlete, const Item& item) {
    for (const program::Load& load : item.loads) {
        for (const program::LoadTerm& term : load.terms) {
            const bool is_named = term.kind == program::LoadKind::band && !term.place.empty();
            if (is_named && !has_band(athlete, term.place) &&
                !nearest_band(athlete, term.place, term.helps)) {
                return "band " + term.place;
            }
        }
    }
    return std::nullopt;
}

// How many of one weight are held at once, at most.
std::int64_t implements_of(const Item& item) {
    std::int64_t most = 1;
    for (const program::Load& load : item.loads) {
        for (const program::LoadTerm& term : load.terms) {
            if (term.kind != program::LoadKind::band) most = std::max(most, term.implements);
        }
    }
    return most;
}

// Whether somebody has so many of one weight of such a thing. What no weight is said of may be
// there as often as is wanted; of bars there is one at a time.
bool has_several(const Inventory& inventory, const Athlete& athlete, const std::string& folded,
                 std::int64_t count) {
    for (const Implements& one : inventory.implements) {
        if (!is_called(one.folded_name, folded)) continue;
        return std::ranges::any_of(one.stocks,
                                   [&](const Stock& stock) { return stock.count >= count; });
    }
    const bool is_bar = std::ranges::any_of(
        inventory.bars, [&](const Bar& bar) { return is_called(bar.folded_name, folded); });
    return !is_bar && has_thing(athlete, folded);
}

// "2 × kettlebell", where one is all there is; of what only bars are asked for, nothing.
std::optional<std::string> lacking_several(const Program& program, const Athlete& athlete,
                                           const Item& item) {
    const std::int64_t count = implements_of(item);
    if (count == 1) return std::nullopt;
    const Inventory inventory = take_stock(athlete.kit);
    for (const Part& part : item.parts) {
        const auto* movement = definition_of(program, part);
        if (movement == nullptr) continue;
        for (const auto& choices : movement->kit) {
            const auto is_held = [](const std::string& one) {
                return !fold_name(one).contains("bar");
            };
            auto held = std::ranges::find_if(choices, [&](const std::string& one) {
                return is_held(one) && has_thing(athlete, one);
            });
            if (held == choices.end()) held = std::ranges::find_if(choices, is_held);
            const bool is_there = std::ranges::any_of(choices, [&](const std::string& one) {
                return has_several(inventory, athlete, fold_name(one), count);
            });
            if (held != choices.end() && !is_there)
                return std::to_string(count) + " \u00d7 " + *held;
        }
    }
    return std::nullopt;
}

// The stem under which a condition may speak of a demand: "jump" of jumping.
std::string stem_of(grammar::Demand demand) {
    constexpr std::string_view ending = "ing";
    if (demand == grammar::Demand::loaded_spine) return "spine";
    std::string_view stem = grammar::demand_words(demand);
    if (stem.ends_with(ending)) stem.remove_suffix(ending.size());
    return std::string(stem);
}

std::optional<std::string> avoided_demand(const Program& program, const Athlete& athlete,
                                          const Item& item) {
    for (const grammar::Demand demand : athlete.avoided.demands) {
        const bool asks = std::ranges::any_of(item.parts, [&](const Part& part) {
            const auto* movement = definition_of(program, part);
            return movement != nullptr &&
                   std::ranges::find(movement->demands, demand) != movement->demands.end();
        });
        if (asks || (demand == grammar::Demand::overhead && is_held_overhead(item)))
            return std::string(grammar::demand_words(demand));
    }
    return std::nullopt;
}

std::optional<std::string> avoided_pattern(const Program& program, const Athlete& athlete,
                                           const Item& item) {
    for (const grammar::Pattern pattern : athlete.avoided.patterns) {
        const bool is_of_it = std::ranges::any_of(item.parts, [&](const Part& part) {
            const auto* movement = definition_of(program, part);
            return movement != nullptr &&
                   std::ranges::find(movement->patterns, pattern) != movement->patterns.end();
        });
        if (is_of_it) return "the pattern " + std::string(grammar::pattern_name(pattern));
    }
    return std::nullopt;
}

}  // namespace

bool has_thing(const Athlete& athlete, const std::string& name) {
    const std::string folded = fold_name(name);
    return std::ranges::any_of(athlete.kit, [&](const program::KitThing& thing) {
        return is_called(fold_name(thing.name), folded);
    });
}

std::string any_of_words(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names)
        text += (text.empty() ? "" : " or ") + name;
    return text;
}

std::vector<std::string> lacking_kit(const Program& program, const Athlete& athlete,
                                     const Item& item) {
    if (!athlete.says_kit) return {};
    if (auto band = lacking_band(athlete, item)) return {std::move(*band)};
    for (const Part& part : item.parts) {
        const auto* movement = definition_of(program, part);
        if (movement == nullptr) continue;
        for (const auto& choices : movement->kit) {
            const bool is_there = std::ranges::any_of(
                choices, [&](const std::string& one) { return has_thing(athlete, one); });
            if (!is_there) return choices;
        }
    }
    if (auto several = lacking_several(program, athlete, item)) return {std::move(*several)};
    return {};
}

std::optional<std::string> to_be_avoided(const Program& program, const Athlete& athlete,
                                         const Item& item) {
    if (athlete.avoided.is_empty()) return std::nullopt;
    for (const Part& part : item.parts) {
        const auto* movement = definition_of(program, part);
        const std::string name = movement == nullptr ? part.folded_name : fold_name(movement->name);
        const auto& names = athlete.avoided.folded_movements;
        if (std::ranges::find(names, name) != names.end()) return part.name;
    }
    if (auto demand = avoided_demand(program, athlete, item)) return demand;
    if (auto pattern = avoided_pattern(program, athlete, item)) return pattern;
    // Of a movement that nobody has defined only its name can tell.
    for (const Part& part : item.parts) {
        if (!part.definition && speaks_of_avoided(athlete, part.name)) return part.name;
    }
    return std::nullopt;
}

bool speaks_of_avoided(const Athlete& athlete, const std::string& condition) {
    const std::string folded = fold_name(condition);
    const program::Avoided& avoided = athlete.avoided;
    return std::ranges::any_of(
               avoided.demands,
               [&](grammar::Demand one) { return folded.contains(stem_of(one)); }) ||
           std::ranges::any_of(
               avoided.patterns,
               [&](grammar::Pattern one) { return folded.contains(grammar::pattern_name(one)); }) ||
           std::ranges::any_of(avoided.folded_movements,
                               [&](const std::string& one) { return folded.contains(one); });
}

std::string name_of(const Item& item) {
    std::string text;
    for (const Part& part : item.parts)
        text += (text.empty() ? "" : " + ") + part.name;
    return text;
}

}  // namespace stave::fit
