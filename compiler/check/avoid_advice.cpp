#include "compiler/check/avoid_advice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using program::Demand;
using program::Item;

std::string demand_phrase(Demand demand) {
    if (demand == Demand::overhead) return "overhead work";
    if (demand == Demand::loaded_spine) return "a load on the spine";
    return std::string(grammar::demand_words(demand));
}

// "no jumping", "if jumps hurt", "overhead is too much".
bool speaks_of(const std::string& condition, Demand demand) {
    constexpr std::string_view ending = "ing";
    std::string_view stem = grammar::demand_words(demand);
    if (demand == Demand::loaded_spine) stem = "spine";
    if (stem.ends_with(ending)) stem.remove_suffix(ending.size());
    return fold_name(condition).contains(stem);
}

// "8 kg overhead": the load says where it is held.
bool is_held_overhead(const Item& item) {
    return std::ranges::any_of(item.loads, [](const program::Load& load) {
        return std::ranges::any_of(load.terms, [](const program::LoadTerm& term) {
            return fold_name(term.place) == "overhead";
        });
    });
}

class Adviser {
public:
    Adviser(const program::Program& program, const program::Session& session, DiagnosticSink& sink)
        : program_(program), session_(session), sink_(sink) {}

    void run() {
        for (const program::Block& block : session_.blocks) {
            for (const Item& item : block.items)
                check(item);
        }
        report_unknown();
    }

private:
    void check(const Item& item) {
        if (const auto demand = avoided_demand(item); demand && !can_be_replaced(item)) {
            return report(item, item.span, *demand);
        }
        for (const program::Substitute& other : item.substitutes) {
            if (const auto demand = avoided_demand(other.item)) {
                return report(other.item, other.item.span, *demand);
            }
        }
    }

    // One message for all of them but those where it is allowed, at the first.
    void report_unknown() {
        constexpr std::size_t most_named = 6;
        std::vector<std::string> names;
        Span first;
        for (const program::Block& block : session_.blocks) {
            for (const Item& item : block.items) {
                for (const program::Part& part : item.parts) {
                    const bool is_told = std::ranges::find(names, part.name) != names.end();
                    if (part.definition || part.is_game || is_told) continue;
                    if (sink_.leaves_out({Code::avoid_unknown, item.span, {}, {}, {}})) continue;
                    if (names.empty()) first = item.span;
                    names.push_back(part.name);
                }
            }
        }
        if (names.empty()) return;
        std::string text = names.front();
        for (std::size_t i = 1; i < std::min(names.size(), most_named); ++i)
            text += ", " + names[i];
        if (names.size() > most_named)
            text += fmt::format(" and {} more", names.size() - most_named);
        sink_.report({Code::avoid_unknown, first, {text}, {}, {}});
    }

    void report(const Item& item, Span span, Demand demand) {
        const auto asks = std::ranges::find_if(item.parts, [&](const program::Part& part) {
            return part.definition && demands(part, demand);
        });
        const program::Part& part = asks == item.parts.end() ? item.parts.front() : *asks;
        sink_.report({Code::avoided, span, {part.name, demand_phrase(demand)}, {}, {}});
    }

    [[nodiscard]] bool demands(const program::Part& part, Demand demand) const {
        const auto& all = program_.movements[*part.definition].demands;
        return std::ranges::find(all, demand) != all.end();
    }

    // The first thing to avoid that the item is known to ask for.
    [[nodiscard]] std::optional<Demand> avoided_demand(const Item& item) const {
        for (const Demand demand : session_.avoid) {
            const bool asks = std::ranges::any_of(item.parts, [&](const program::Part& part) {
                return part.definition && demands(part, demand);
            });
            if (asks || (demand == Demand::overhead && is_held_overhead(item))) return demand;
        }
        return std::nullopt;
    }

    // A substitute is a way out where it may always be taken, or where its condition speaks
    // of what is to be avoided: whoever must not jump may have kit and sound knees.
    [[nodiscard]] bool can_be_replaced(const Item& item) const {
        return std::ranges::any_of(item.substitutes, [&](const program::Substitute& other) {
            const bool is_known = std::ranges::all_of(
                other.item.parts,
                [](const program::Part& part) { return part.definition.has_value(); });
            return is_known && !avoided_demand(other.item) &&
                   (other.condition.empty() || speaks_of(other.condition, *avoided_demand(item)));
        });
    }

    const program::Program& program_;
    const program::Session& session_;
    DiagnosticSink& sink_;
};

}  // namespace

void advise_on_avoided(const program::Program& program, const program::Session& session,
                       DiagnosticSink& sink) {
    if (session.avoid.empty()) return;
    Adviser(program, session, sink).run();
}

}  // namespace stave::check
