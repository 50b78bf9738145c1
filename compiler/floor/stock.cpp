#include "compiler/floor/stock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "compiler/names/names.hpp"
#include "compiler/names/things.hpp"

namespace stave::floors {

namespace {

using program::LoadKind;
using program::LoadTerm;

bool is_of_mass(const Lot& lot) {
    return lot.size && dimension(lot.size->unit) == Dimension::mass;
}

const program::Load* load_of(const program::Item& item, std::size_t set) {
    if (item.loads.empty()) return nullptr;
    return &item.loads[std::min(set, item.loads.size() - 1)];
}

bool makes(const Lot& lot, const LoadTerm& term) {
    if (!is_of_mass(lot) || is_filled(lot.folded_name)) return true;
    const Ratio size = in_base_units(*lot.size);
    return size >= in_base_units(term.low) && size <= in_base_units(term.high);
}

// The lots that are called so and make the weight; with `term` null, whatever they weigh.
Ask ask_for(const std::string& choice, const LoadTerm* term, const std::vector<Lot>& lots) {
    const std::string folded = fold_name(choice);
    Ask ask{choice, {}, 1};
    for (std::uint32_t id = 0; id < lots.size(); ++id) {
        if (!is_called(lots[id].folded_name, folded)) continue;
        if (term != nullptr && !makes(lots[id], *term)) continue;
        ask.lots.push_back(id);
        if (term != nullptr && is_of_mass(lots[id]) && !is_filled(lots[id].folded_name))
            ask.units = term->implements;
    }
    return ask;
}

std::string joined(const std::vector<std::string>& choices) {
    std::string text;
    for (const std::string& one : choices)
        text += (text.empty() ? "" : " or ") + one;
    return text;
}

Ask ask_for_any(const std::vector<std::string>& choices, const LoadTerm* term,
                const std::vector<Lot>& lots) {
    for (const std::string& choice : choices) {
        Ask ask = ask_for(choice, term, lots);
        if (!ask.lots.empty()) return ask;
    }
    return {joined(choices), {}, 1};
}

Ask ask_for_band(const std::string& name, const std::vector<Lot>& lots) {
    const std::string folded = fold_name(name);
    Ask ask{"band " + name, {}, 1};
    for (std::uint32_t id = 0; id < lots.size(); ++id) {
        const std::string& own = lots[id].folded_name;
        if (own == "band " + folded || own == "bands " + folded || own == folded + " band" ||
            own == folded + " bands") {
            ask.lots.push_back(id);
        }
    }
    return ask;
}

void add_once(std::vector<Ask>& found, Ask ask) {
    const auto same = std::ranges::find_if(found, [&](const Ask& one) {
        return one.lots == ask.lots && (!ask.lots.empty() || one.what == ask.what);
    });
    if (same == found.end()) {
        found.push_back(std::move(ask));
    } else {
        same->units = std::max(same->units, ask.units);
    }
}

}  // namespace

std::vector<Lot> take_lots(const std::vector<program::KitThing>& kit) {
    std::vector<Lot> lots;
    const auto add = [&](Lot lot) {
        const auto same = std::ranges::find_if(lots, [&](const Lot& one) {
            return one.folded_name == lot.folded_name && one.size == lot.size;
        });
        if (same == lots.end()) {
            lots.push_back(std::move(lot));
        } else {
            same->count += lot.count;
        }
    };
    for (const program::KitThing& thing : kit) {
        std::string folded = fold_name(thing.name);
        std::int64_t count = thing.count;
        for (const std::string_view pairs : {"pair of ", "pairs of "}) {
            if (!folded.starts_with(pairs)) continue;
            folded.erase(0, pairs.size());
            count *= 2;
        }
        if (thing.sizes.empty() || !thing.unit) {
            add({folded, folded, std::nullopt, count});
            continue;
        }
        for (const Ratio size : thing.sizes) {
            const std::string name =
                fmt::format("{} {} {}", folded, to_decimal(size), singular(*thing.unit));
            add({name, folded, Quantity{size, *thing.unit}, count});
        }
    }
    return lots;
}

std::vector<Ask> asks(const program::Program& program, const program::Item& item, std::size_t set,
                      const std::vector<Lot>& lots) {
    const LoadTerm* weight = nullptr;
    const LoadTerm* band = nullptr;
    if (const program::Load* load = load_of(item, set)) {
        for (const LoadTerm& term : load->terms) {
            if (term.kind == LoadKind::mass && weight == nullptr) weight = &term;
            if (term.kind == LoadKind::band && !term.place.empty()) band = &term;
        }
    }
    std::vector<Ask> found;
    if (band != nullptr) add_once(found, ask_for_band(band->place, lots));
    for (const program::Part& part : item.parts) {
        if (!part.definition) continue;
        for (const auto& choices : program.movements[*part.definition].kit) {
            const bool is_band = std::ranges::any_of(
                choices, [](const std::string& one) { return fold_name(one) == "band"; });
            if (!is_band || band == nullptr) add_once(found, ask_for_any(choices, weight, lots));
        }
    }
    return found;
}

}  // namespace stave::floors
