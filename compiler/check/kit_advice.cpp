#include "compiler/check/kit_advice.hpp"

#include <algorithm>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compiler/names/names.hpp"
#include "compiler/names/things.hpp"

namespace stave::check {

namespace {

using program::Item;
using program::KitThing;
using program::LoadKind;
using program::LoadTerm;

bool is_mass(const KitThing& thing) {
    return thing.unit && dimension(*thing.unit) == Dimension::mass && !thing.sizes.empty();
}

std::string joined(const std::vector<std::string>& texts, std::string_view between) {
    std::string text;
    for (const std::string& one : texts) {
        if (!text.empty()) text += between;
        text += one;
    }
    return text;
}

// Something that the kit line lacks: of its names one is enough.
struct Missing {
    std::vector<std::string> choices;
    std::vector<std::string> movements;
};

class KitAdviser {
public:
    KitAdviser(const program::Program& program, const program::Session& session,
               DiagnosticSink& sink)
        : program_(program), session_(session), sink_(sink) {
        for (const KitThing& thing : session.kit)
            add_thing(thing);
    }

    void run() {
        for (const program::Block& block : session_.blocks) {
            for (const Item& item : block.items) {
                if (!is_done_without_kit(item)) check(item);
                for (const program::Substitute& other : item.substitutes)
                    check(other.item);
            }
        }
        report_missing();
    }

private:
    // Whoever lacks the kit has something else to do: "or band row: 12, if no bar".
    static bool is_done_without_kit(const Item& item) {
        return std::ranges::any_of(item.substitutes, [](const program::Substitute& other) {
            return fold_name(other.condition).starts_with("no ");
        });
    }

    // "kettlebell 16 kg, kettlebell 24 kg" is one thing of two sizes.
    void add_thing(const KitThing& thing) {
        const std::string name = fold_name(thing.name);
        for (std::size_t i = 0; i < things_.size(); ++i) {
            if (names_[i] != name || things_[i].unit != thing.unit) continue;
            auto& sizes = things_[i].sizes;
            sizes.insert(sizes.end(), thing.sizes.begin(), thing.sizes.end());
            return;
        }
        names_.push_back(name);
        things_.push_back(thing);
    }

    void check(const Item& item) {
        if (item.parts.empty()) return;
        const bool has_band = check_bands(item);
        for (const program::Part& part : item.parts) {
            for (const auto& choices : needs(part)) {
                // The band that is named is the one that is needed.
                const bool is_band = std::ranges::any_of(
                    choices, [](const std::string& one) { return fold_name(one) == "band"; });
                if (!(has_band && is_band) && !is_any_listed(choices))
                    add_missing(choices, part.name);
            }
        }
        check_weights(item);
    }

    [[nodiscard]] std::span<const std::vector<std::string>> needs(const program::Part& part) const {
        if (!part.definition) return {};
        return program_.movements[*part.definition].kit;
    }

    [[nodiscard]] bool is_any_listed(const std::vector<std::string>& choices) const {
        return std::ranges::any_of(choices, [&](const std::string& choice) {
            const std::string folded = fold_name(choice);
            return std::ranges::any_of(
                names_, [&](const std::string& name) { return is_called(name, folded); });
        });
    }

    void add_missing(const std::vector<std::string>& choices, const std::string& movement) {
        auto found = std::ranges::find(missing_, choices, &Missing::choices);
        if (found == missing_.end()) {
            missing_.push_back({choices, {}});
            found = std::prev(missing_.end());
        }
        auto& movements = found->movements;
        if (std::ranges::find(movements, movement) == movements.end()) {
            movements.push_back(movement);
        }
    }

    // Whether the item is done with a band that has a name.
    bool check_bands(const Item& item) {
        bool has_band = false;
        for (const program::Load& load : item.loads) {
            for (const LoadTerm& term : load.terms) {
                if (term.kind != LoadKind::band) continue;
                has_band = true;
                const std::string folded = fold_name(term.place);
                const std::string band = "band " + folded;
                const std::string turned = folded + " band";
                const bool listed = std::ranges::any_of(names_, [&](const std::string& name) {
                    return name == band || name == turned || name == band + "s" ||
                           name == turned + "s";
                });
                if (!listed) add_missing({"band " + term.place}, item.parts.front().name);
            }
        }
        return has_band;
    }

    // "bench, rack (bench press), band red (band row)".
    [[nodiscard]] std::string missing_words() const {
        std::string text;
        for (std::size_t i = 0; i < missing_.size(); ++i) {
            if (i > 0) text += ", ";
            text += joined(missing_[i].choices, " or ");
            const bool ends =
                i + 1 == missing_.size() || missing_[i + 1].movements != missing_[i].movements;
            if (ends) text += " (" + joined(missing_[i].movements, ", ") + ")";
        }
        return text;
    }

    // The things at the end of the kit line, of each the choice of this place.
    [[nodiscard]] Fix addition(std::size_t place) const {
        std::string text;
        for (const Missing& one : missing_)
            text += ", " + one.choices[std::min(place, one.choices.size() - 1)];
        const std::uint32_t end = session_.kit_span.end;
        return {text.substr(2), {Edit{{end, end}, text}}};
    }

    void report_missing() {
        if (missing_.empty()) return;
        std::vector<Fix> fixes{addition(0)};
        // Which of them is there only the coach knows.
        const bool has_choice = std::ranges::any_of(
            missing_, [](const Missing& one) { return one.choices.size() > 1; });
        if (has_choice) fixes.push_back(addition(1));
        sink_.report({Code::kit_not_listed,
                      session_.kit_span,
                      {missing_words(), session_.title},
                      std::move(fixes),
                      {}});
    }

    // The listed things that a need speaks of and that have weights, by their indices.
    struct Weights {
        std::vector<std::size_t> things;
        // Any weight can be made of them, or of some nobody says what they weigh.
        bool is_open = false;
    };
    [[nodiscard]] Weights weights_of(const std::vector<std::string>& choices) const {
        Weights weights;
        bool has_others = false;
        for (std::size_t i = 0; i < things_.size(); ++i) {
            const bool is_choice = std::ranges::any_of(choices, [&](const std::string& choice) {
                return is_called(names_[i], fold_name(choice));
            });
            if (!is_choice) continue;
            weights.is_open = weights.is_open || is_filled(names_[i]);
            if (is_mass(things_[i])) {
                weights.things.push_back(i);
            } else {
                has_others = true;
            }
        }
        weights.is_open = weights.is_open || (has_others && !weights.things.empty());
        return weights;
    }

    // A weight that the item's movements cannot take from the listed sizes; said once.
    void check_weights(const Item& item) {
        std::vector<std::size_t> things;
        std::string movement;
        for (const program::Part& part : item.parts) {
            for (const auto& choices : needs(part)) {
                Weights weights = weights_of(choices);
                if (weights.is_open) return;
                if (!things.empty() || weights.things.empty()) continue;
                things = std::move(weights.things);
                movement = part.name;
            }
        }
        if (things.empty()) return;
        for (const program::Load& load : item.loads) {
            for (const LoadTerm& term : load.terms) {
                if (term.kind != LoadKind::mass || is_there(term)) continue;
                return report_weight(item, term, movement, things);
            }
        }
    }

    // Whether some thing of the kit line has the weight.
    [[nodiscard]] bool is_there(const LoadTerm& term) const {
        return std::ranges::any_of(things_, [&](const KitThing& thing) {
            return is_mass(thing) && std::ranges::any_of(thing.sizes, [&](Ratio size) {
                       const Ratio kilograms = in_base_units({size, *thing.unit});
                       return kilograms >= in_base_units(term.low) &&
                              kilograms <= in_base_units(term.high);
                   });
        });
    }

    void report_weight(const Item& item, const LoadTerm& term, const std::string& movement,
                       const std::vector<std::size_t>& things) {
        std::vector<std::string> words;
        for (const std::size_t i : things)
            words.push_back(kit_words(things_[i]));
        sink_.report({Code::load_not_in_kit,
                      item.span,
                      {to_decimal(term.low.value) + " " + std::string(plural(term.low.unit)),
                       movement, joined(words, ", ")},
                      {},
                      {}});
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
    // What the kit line lists, each thing once, and its folded names.
    std::vector<KitThing> things_;
    std::vector<std::string> names_;
    std::vector<Missing> missing_;
};

}  // namespace

void advise_on_kit(const program::Program& program, const program::Session& session,
                   DiagnosticSink& sink) {
    if (session.kit.empty()) return;
    KitAdviser(program, session, sink).run();
}

}  // namespace stave::check
