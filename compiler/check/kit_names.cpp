#include "compiler/check/kit_names.hpp"

#include <algorithm>
#include <span>
#include <string>
#include <utility>
#include <variant>

#include "compiler/names/edit_distance.hpp"
#include "compiler/names/names.hpp"
#include "compiler/names/things.hpp"

namespace stave::check {

namespace {

// Shorter names are too near to one another: a band and sand.
constexpr std::size_t shortest = 5;
// From so many letters on two slips are one word still: dumbell, ketlebel.
constexpr std::size_t shortest_of_two_slips = 8;
// Longer lists are not searched.
constexpr std::size_t most_names = 500;
// And of so many things at most, as a file of one long kit line could be.
constexpr std::size_t most_things_looked_up = 5000;

std::size_t slips_allowed(const std::string& name) {
    return name.size() < shortest_of_two_slips ? 1 : 2;
}

// What things may be called, folded: by what movements need, and by the names of kits.
class KnownThings {
public:
    KnownThings(const Definitions& definitions, const std::vector<program::NamedKit>& kits)
        : kits_(std::span(kits).first(std::min(kits.size(), most_names))) {
        for (const program::MovementDefinition& movement : definitions.movements) {
            for (const auto& choices : movement.kit) {
                for (const std::string& choice : choices)
                    add(fold_name(choice));
            }
        }
    }

    [[nodiscard]] bool knows(const std::string& folded) const {
        return std::ranges::find(kits_, folded, &program::NamedKit::folded_name) != kits_.end() ||
               std::ranges::any_of(
                   needs_, [&](const std::string& need) { return is_called(folded, need); });
    }

    // The first of the nearest as it is written, or empty.
    [[nodiscard]] std::string near(const std::string& folded) const {
        Nearest nearest{folded};
        for (const std::string& need : needs_) {
            nearest.meet(need, need);
            nearest.meet(need + "s", need + "s");
        }
        for (const program::NamedKit& kit : kits_)
            nearest.meet(kit.folded_name, kit.name);
        return nearest.best;
    }

private:
    struct Nearest {
        const std::string& name;
        std::size_t least = shortest;
        std::string best = {};

        void meet(const std::string& one, const std::string& written) {
            if (one.size() < shortest) return;
            const std::size_t allowed = slips_allowed(one);
            const std::size_t slips = edit_distance(name, one, allowed);
            if (slips > allowed || slips >= least) return;
            least = slips;
            best = written;
        }
    };

    void add(std::string need) {
        if (needs_.size() < most_names && std::ranges::find(needs_, need) == needs_.end())
            needs_.push_back(std::move(need));
    }

    std::span<const program::NamedKit> kits_;
    std::vector<std::string> needs_;
};

}  // namespace

void check_kit_names(const syntax::Document& document, const Definitions& definitions,
                     const std::vector<program::NamedKit>& kits, DiagnosticSink& sink) {
    const KnownThings known(definitions, kits);
    std::size_t left = most_things_looked_up;
    for (const syntax::Line& line : document.lines) {
        const auto* kit = std::get_if<syntax::Kit>(&line.body);
        if (kit == nullptr || line.is_broken) continue;
        for (const syntax::KitThing& thing : kit->things) {
            const std::string folded = fold_name(thing.name);
            if (known.knows(folded) || left == 0) continue;
            --left;
            const std::string near = known.near(folded);
            if (near.empty()) continue;
            sink.report({Code::kit_near,
                         thing.name_span,
                         {clean_text(thing.name), near},
                         {{near, {Edit{thing.name_span, near}}}},
                         {}});
        }
    }
}

}  // namespace stave::check
