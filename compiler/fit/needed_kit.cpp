#include "compiler/fit/needed_kit.hpp"

#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

#include "compiler/fit/bands.hpp"
#include "compiler/fit/inventory.hpp"
#include "compiler/names/names.hpp"
#include "compiler/names/things.hpp"

namespace stave::fit {

namespace {

using program::Item;
using program::KitThing;
using program::LoadKind;
using program::Part;
using program::Program;

constexpr std::string_view pairs_word = "pairs";

// A thing of the athlete's, and how much of it is needed.
struct Own {
    const KitThing* thing;
    std::string folded;
    bool is_needed = false;
    bool has_all_sizes = false;
    std::vector<Ratio> sizes;
    // More than one of what is needed goes by this name ("kettlebells"): so many are needed, and
    // the last bytes of the name say that there are several.
    std::int64_t at_once = 0;
    std::size_t ending = 0;
};

// The weights that an item asks for, how many of one are held at once, and heights.
struct Asked {
    std::vector<Quantity> sizes;
    // Folded names of bands.
    std::vector<std::string> bands;
    std::int64_t at_once = 1;
    bool is_on_bar = false;
};

Asked asked_by(const Item& item) {
    Asked asked;
    for (const program::Load& load : item.loads) {
        for (const program::LoadTerm& term : load.terms) {
            if (term.kind == LoadKind::band && !term.place.empty())
                asked.bands.push_back(fold_name(term.place));
            if (term.kind != LoadKind::mass) continue;
            asked.sizes.push_back(term.low);
            asked.sizes.push_back(term.high);
            asked.at_once = std::max(asked.at_once, term.implements);
        }
    }
    if (const auto* height = item.find<program::Height>()) asked.sizes.push_back(height->height);
    asked.is_on_bar = item.find<program::Plates>() != nullptr;
    return asked;
}

// Sizes of the thing that are among those asked for.
std::vector<Ratio> matches(const KitThing& thing, const Asked& asked) {
    std::vector<Ratio> found;
    for (const Ratio size : thing.sizes) {
        const bool is_asked = std::ranges::any_of(asked.sizes, [&](const Quantity& one) {
            return thing.unit == one.unit && size == one.value;
        });
        if (is_asked) found.push_back(size);
    }
    return found;
}

bool is_asked_band(const Own& own, const Asked& asked) {
    return std::ranges::any_of(
        asked.bands, [&](const std::string& name) { return is_band_named(own.folded, name); });
}

// Not one of another size or strength than is asked for.
bool serves(const Own& own, const Asked& asked) {
    if (!asked.bands.empty() && is_called(own.folded, "band")) return is_asked_band(own, asked);
    const KitThing& thing = *own.thing;
    if (!thing.unit || thing.sizes.empty() || is_filled(own.folded)) return true;
    const bool is_sized = std::ranges::any_of(asked.sizes, [&](const Quantity& one) {
        return dimension(one.unit) == dimension(*thing.unit);
    });
    return !is_sized || !matches(thing, asked).empty();
}

class Picker {
public:
    Picker(const Program& program, const program::Athlete& athlete) : program_(program) {
        for (const KitThing& thing : athlete.kit)
            things_.push_back({.thing = &thing, .folded = fold_name(thing.name), .sizes = {}});
    }

    void look_at(const Item& item) {
        if (item.lacking.empty() && !item.is_blank()) take(item);
        for (const program::Substitute& other : item.substitutes) {
            if (other.group.empty()) take(other.item);
        }
    }

    // What stands in the session's own list for no movement of it.
    void take_along(const program::Session& written) {
        for (const KitThing& thing : written.kit) {
            const std::string folded = fold_name(thing.name);
            if (is_plates(folded) || is_filled(folded) || is_asked_for(folded, written)) continue;
            for (Own& own : things_) {
                if (is_called(own.folded, folded) || is_called(folded, own.folded)) use_whole(own);
            }
        }
    }

    std::vector<KitThing> picked() {
        std::vector<KitThing> kit;
        for (const Own& own : things_) {
            if (own.is_needed) {
                kit.push_back(needed_of(own));
            } else if (is_plates(own.folded)) {
                add_plates(own, kit);
            }
        }
        return kit;
    }

private:
    void take(const Item& item) {
        const Asked asked = asked_by(item);
        for (const Part& part : item.parts) {
            if (part.definition) {
                for (const auto& choices : program_.movements[*part.definition].kit)
                    take_one_of(choices, asked);
                continue;
            }
            // "backpack squat" is done with the backpack.
            for (Own& own : things_) {
                if (part.folded_name.starts_with(own.folded + ' ')) use(own, own.folded, asked);
            }
        }
        for (Own& own : things_) {
            if (is_asked_band(own, asked)) use_whole(own);
        }
        if (const auto* plates = item.find<program::Plates>()) take_plates(*plates);
    }

    // The first of which there is one of the right size, else the first that is there at all.
    void take_one_of(const std::vector<std::string>& choices, const Asked& asked) {
        for (const bool is_exact : {true, false}) {
            for (const std::string& choice : choices) {
                if (take_called(fold_name(choice), asked, is_exact)) return;
            }
        }
    }

    bool take_called(const std::string& need, const Asked& asked, bool is_exact) {
        bool is_found = false;
        for (Own& own : things_) {
            if (!is_called(own.folded, need) || (is_exact && !serves(own, asked))) continue;
            // One bar at a time.
            if (is_found && asked.is_on_bar && is_filled(own.folded)) continue;
            is_found = true;
            use(own, need, asked);
        }
        return is_found;
    }

    void take_plates(const program::Plates& plates) {
        for (const program::LoadedBar& load : plates.loads) {
            for (const Quantity& plate : load.side) {
                const std::int64_t count = std::ranges::count(load.side, plate);
                const auto found =
                    std::ranges::find(plates_, plate, &std::pair<Quantity, std::int64_t>::first);
                if (found == plates_.end()) {
                    plates_.emplace_back(plate, count);
                } else {
                    found->second = std::max(found->second, count);
                }
            }
            if (load.side.empty()) continue;
            for (Own& own : things_) {
                if (own.folded.starts_with("collar")) use_whole(own);
            }
        }
    }

    static void use_whole(Own& own) {
        own.is_needed = true;
        own.has_all_sizes = true;
    }

    static void use(Own& own, std::string_view need, const Asked& asked) {
        own.is_needed = true;
        const std::vector<Ratio> sizes =
            is_filled(own.folded) ? std::vector<Ratio>{} : matches(*own.thing, asked);
        own.sizes.insert(own.sizes.end(), sizes.begin(), sizes.end());
        own.has_all_sizes = own.has_all_sizes || sizes.empty();
        const bool is_several = own.folded.starts_with(need) && own.folded.size() > need.size() &&
                                own.folded.ends_with('s') && !own.folded.contains(' ');
        if (!is_several) return;
        own.ending = own.folded.size() - need.size();
        own.at_once = std::max(own.at_once, asked.at_once);
    }

    static KitThing needed_of(const Own& own) {
        KitThing needed = *own.thing;
        if (!own.has_all_sizes) {
            std::erase_if(needed.sizes, [&](Ratio size) {
                return std::ranges::find(own.sizes, size) == own.sizes.end();
            });
        }
        if (own.at_once == 0) return needed;
        needed.count = std::min(needed.count, own.at_once);
        const bool is_one = needed.count == 1 && needed.sizes.size() <= 1;
        if (is_one) needed.name.resize(needed.name.size() - own.ending);
        return needed;
    }

    // Sizes of which as many pairs are needed stand together, as they do in the kit line.
    void add_plates(const Own& own, std::vector<KitThing>& kit) {
        const std::int64_t there = pairs_in(*own.thing, own.folded);
        std::int64_t last = 0;
        for (const Ratio size : own.thing->sizes) {
            const auto wanted =
                std::ranges::find(plates_, Quantity{size, own.thing->unit.value_or(Unit::kilogram)},
                                  &std::pair<Quantity, std::int64_t>::first);
            const std::int64_t pairs =
                wanted == plates_.end() ? 0 : std::min(there, wanted->second);
            if (pairs == 0) continue;
            wanted->second -= pairs;
            if (pairs == last) {
                kit.back().sizes.push_back(size);
            } else {
                kit.push_back(pairs_of(own, pairs, size));
            }
            last = pairs;
        }
        const bool is_one_pair = last == 1 && kit.back().sizes.size() == 1;
        if (is_one_pair && own.folded.starts_with(pairs_word))
            kit.back().name.erase(pairs_word.size() - 1, 1);
    }

    static KitThing pairs_of(const Own& own, std::int64_t pairs, Ratio size) {
        KitThing plates = *own.thing;
        const bool is_counted_in_pairs = is_pairs(own.folded) || plates.count == 1;
        plates.count = is_counted_in_pairs ? pairs : pairs * 2;
        plates.sizes = {size};
        return plates;
    }

    [[nodiscard]] bool is_asked_for(const std::string& folded,
                                    const program::Session& written) const {
        return std::ranges::any_of(written.blocks, [&](const program::Block& block) {
            return std::ranges::any_of(block.items, [&](const Item& item) {
                return asks_for(item, folded) ||
                       std::ranges::any_of(item.substitutes, [&](const auto& other) {
                           return asks_for(other.item, folded);
                       });
            });
        });
    }

    [[nodiscard]] bool asks_for(const Item& item, const std::string& folded) const {
        return std::ranges::any_of(item.parts, [&](const Part& part) {
            if (!part.definition) return part.folded_name.starts_with(folded + ' ');
            const auto& needs = program_.movements[*part.definition].kit;
            return std::ranges::any_of(needs, [&](const std::vector<std::string>& choices) {
                return std::ranges::any_of(choices, [&](const std::string& choice) {
                    return is_called(folded, fold_name(choice));
                });
            });
        });
    }

    const Program& program_;
    std::vector<Own> things_;
    // Pairs of each plate that the fullest bar takes.
    std::vector<std::pair<Quantity, std::int64_t>> plates_;
};

}  // namespace

std::vector<program::KitThing> needed_kit(const Program& program, const program::Athlete& athlete,
                                          const program::Session& written,
                                          const program::Session& fitted) {
    Picker picker(program, athlete);
    for (const program::Block& block : fitted.blocks) {
        for (const Item& item : block.items)
            picker.look_at(item);
    }
    picker.take_along(written);
    return picker.picked();
}

}  // namespace stave::fit
