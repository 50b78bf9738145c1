#include "compiler/check/kit_advice.hpp"

#include <algorithm>
#include <set>
#include <string>

#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using program::Item;
using program::KitThing;
using program::LoadKind;

// "kettlebells" is a kettlebell, "pairs of plates" are plates.
bool is_called(std::string_view folded_thing, std::string_view folded_need) {
    if (folded_thing == folded_need) return true;
    for (const std::string_view plural : {"s", "es"}) {
        if (folded_thing.ends_with(plural) &&
            folded_thing.substr(0, folded_thing.size() - plural.size()) == folded_need) {
            return true;
        }
    }
    // The last word says what it is: "pull-up bar" for "bar", "heavy band".
    const std::string tail = " " + std::string(folded_need);
    return folded_thing.ends_with(tail) || folded_thing.ends_with(tail + "s") ||
           folded_thing.starts_with(std::string(folded_need) + " ");
}

class KitAdviser {
public:
    KitAdviser(const program::Program& program, const program::Session& session,
               DiagnosticSink& sink)
        : program_(program), session_(session), sink_(sink) {
        for (const KitThing& thing : session.kit)
            names_.push_back(fold_name(thing.name));
    }

    void run() {
        for (const program::Block& block : session_.blocks) {
            for (const Item& item : block.items) {
                check(item);
                for (const program::Substitute& other : item.substitutes)
                    check(other.item);
            }
        }
    }

private:
    void check(const Item& item) {
        for (const program::Part& part : item.parts) {
            if (!part.definition) continue;
            const auto& movement = program_.movements[*part.definition];
            for (const auto& choices : movement.kit)
                check_listed(item, part, choices);
        }
        for (const program::Load& load : item.loads) {
            for (const program::LoadTerm& term : load.terms) {
                if (term.kind == LoadKind::band) check_band(item, term);
                if (term.kind == LoadKind::mass && check_weight(item, term)) return;
            }
        }
    }

    [[nodiscard]] bool is_listed(const std::string& need) const {
        const std::string folded = fold_name(need);
        return std::ranges::any_of(
            names_, [&](const std::string& name) { return is_called(name, folded); });
    }

    void check_listed(const Item& item, const program::Part& part,
                      const std::vector<std::string>& choices) {
        if (std::ranges::any_of(choices, [&](const std::string& c) { return is_listed(c); })) {
            return;
        }
        std::string words;
        for (const std::string& choice : choices) {
            if (!words.empty()) words += " or ";
            words += choice;
        }
        // A thing missing once is enough to know.
        if (!said_.insert(words).second) return;
        sink_.report({Code::kit_not_listed, item.span, {part.name, words}, {}, {}});
    }

    void check_band(const Item& item, const program::LoadTerm& term) {
        const std::string band = "band " + fold_name(term.place);
        const std::string turned = fold_name(term.place) + " band";
        const bool listed = std::ranges::any_of(names_, [&](const std::string& name) {
            return name == band || name == turned || name == band + "s" || name == turned + "s";
        });
        if (listed || !said_.insert(band).second) return;
        sink_.report({Code::kit_not_listed, item.span, {item.parts.front().name, band}, {}, {}});
    }

    // The listed thing that the item's movements are loaded with, where it has sizes.
    [[nodiscard]] const KitThing* implement_of(const Item& item) const {
        for (const program::Part& part : item.parts) {
            if (!part.definition) continue;
            for (const auto& choices : program_.movements[*part.definition].kit) {
                for (const std::string& choice : choices) {
                    const KitThing* thing = sized(choice);
                    if (thing != nullptr) return thing;
                }
            }
        }
        return nullptr;
    }

    [[nodiscard]] const KitThing* sized(const std::string& need) const {
        const std::string folded = fold_name(need);
        // Bars are loaded with plates, so their own weight is no limit.
        if (folded == "barbell" || folded == "bar") return nullptr;
        for (std::size_t i = 0; i < names_.size(); ++i) {
            const KitThing& thing = session_.kit[i];
            const bool weighs = thing.unit && dimension(*thing.unit) == Dimension::mass;
            if (weighs && !thing.sizes.empty() && is_called(names_[i], folded)) return &thing;
        }
        return nullptr;
    }

    // Whether a warning was given.
    bool check_weight(const Item& item, const program::LoadTerm& term) {
        const KitThing* thing = implement_of(item);
        if (thing == nullptr) return false;
        for (const KitThing& other : session_.kit) {
            if (!other.unit || dimension(*other.unit) != Dimension::mass) continue;
            for (const Ratio size : other.sizes) {
                const Ratio kilograms = in_base_units({size, *other.unit});
                if (kilograms >= in_base_units(term.low) && kilograms <= in_base_units(term.high)) {
                    return false;
                }
            }
        }
        const std::string weight =
            to_decimal(term.low.value) + " " + std::string(plural(term.low.unit));
        sink_.report({Code::load_not_in_kit,
                      item.span,
                      {weight, item.parts.front().name, kit_words(*thing)},
                      {},
                      {}});
        return true;
    }

    static std::string kit_words(const KitThing& thing) {
        std::string text = thing.name;
        for (const Ratio size : thing.sizes)
            text += " " + to_decimal(size);
        return text + " " + std::string(plural(*thing.unit));
    }

    const program::Program& program_;
    const program::Session& session_;
    DiagnosticSink& sink_;
    // Folded names of the kit line's things, in its order.
    std::vector<std::string> names_;
    std::set<std::string> said_;
};

}  // namespace

void advise_on_kit(const program::Program& program, const program::Session& session,
                   DiagnosticSink& sink) {
    if (session.kit.empty()) return;
    KitAdviser(program, session, sink).run();
}

}  // namespace stave::check
