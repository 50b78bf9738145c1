#include "compiler/fit/choose.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "compiler/fit/needs.hpp"
#include "compiler/names/names.hpp"

namespace stave::fit {

namespace {

using program::Athlete;
using program::Item;
using program::Program;
using program::Substitute;

constexpr std::string_view no_word = "no ";

class Chooser {
public:
    Chooser(const Program& program, const Athlete& athlete, const std::string& blank_name,
            DiagnosticSink& sink)
        : program_(program), athlete_(athlete), blank_name_(blank_name), sink_(sink) {}

    Choice choose(Item& item) {
        Choice choice;
        choice.written = name_of(item);
        const auto avoided = to_be_avoided(program_, athlete_, item);
        const auto lacking = lacking_kit(program_, athlete_, item);
        if (avoided || !lacking.empty()) {
            choice.reason = avoided ? "is to avoid " + *avoided : "no " + any_of_words(lacking);
            choice.outcome = replace(item, avoided, lacking);
        } else {
            report_unknown(item);
        }
        drop_unfit(item);
        std::erase_if(item.options,
                      [&](const std::string& one) { return speaks_of_avoided(athlete_, one); });
        if (choice.outcome != Outcome::blank) choice.done = name_of(item);
        return choice;
    }

private:
    Outcome replace(Item& item, const std::optional<std::string>& avoided,
                    const std::vector<std::string>& lacking) {
        const auto other = std::ranges::find_if(item.substitutes, [&](const Substitute& one) {
            return fits(one, avoided.has_value());
        });
        if (other != item.substitutes.end()) {
            Item chosen = std::move(other->item);
            item.substitutes.erase(other);
            chosen.substitutes = std::move(item.substitutes);
            if (!chosen.rest_after) chosen.rest_after = item.rest_after;
            item = std::move(chosen);
            return Outcome::substituted;
        }
        if (avoided) {
            report_blank(item, *avoided);
            leave_blank(item);
            return Outcome::blank;
        }
        sink_.report({Code::kit_lacking,
                      item.span,
                      {athlete_.name, name_of(item), any_of_words(lacking), kin_words(item)},
                      {},
                      {}});
        item.lacking = lacking;
        return Outcome::lacking;
    }

    // Those of levels and groups are no substitutes, and have been chosen before.
    [[nodiscard]] bool fits(const Substitute& other, bool avoids) const {
        return other.group.empty() && is_met(other.condition, avoids) && is_vouched_for(other) &&
               !to_be_avoided(program_, athlete_, other.item) &&
               lacking_kit(program_, athlete_, other.item).empty();
    }

    // Whoever is to avoid something gets no movement that nothing is known of, unless its line
    // says that it is meant for them.
    [[nodiscard]] bool is_vouched_for(const Substitute& other) const {
        if (athlete_.avoided.is_empty() || speaks_of_avoided(athlete_, other.condition))
            return true;
        return std::ranges::all_of(other.item.parts, [](const program::Part& part) {
            return part.definition.has_value() || part.is_game;
        });
    }

    // "no rower" is met by who has none, "no jumping" by who must not jump. What hangs on how
    // somebody is ("knees hurt") is met where it speaks of what they avoid.
    [[nodiscard]] bool is_met(const std::string& condition, bool avoids) const {
        if (condition.empty()) return true;
        if (avoids && speaks_of_avoided(athlete_, condition)) return true;
        const std::string folded = fold_name(condition);
        if (!folded.starts_with(no_word)) return false;
        return athlete_.says_kit && !has_thing(athlete_, folded.substr(no_word.size()));
    }

    // What is no choice of theirs does not stand on their card: movements to avoid, and those
    // for want of kit that is there or is not.
    void drop_unfit(Item& item) const {
        std::erase_if(item.substitutes, [&](const Substitute& other) {
            const bool is_of_kit = fold_name(other.condition).starts_with(no_word);
            return !is_vouched_for(other) ||
                   to_be_avoided(program_, athlete_, other.item).has_value() ||
                   !lacking_kit(program_, athlete_, other.item).empty() ||
                   (is_of_kit && athlete_.says_kit);
        });
    }

    void leave_blank(Item& item) const {
        Item blank;
        program::Part& part = blank.parts.emplace_back();
        part.name = blank_name_;
        part.folded_name = fold_name(blank_name_);
        part.is_game = true;
        part.amounts = item.parts.front().amounts;
        for (program::Amount& amount : part.amounts)
            amount.form = program::AmountForm::blank;
        blank.sides = item.sides;
        blank.sides.first_is_said = false;
        blank.rest = item.rest;
        blank.rest_after = item.rest_after;
        blank.span = item.span;
        blank.substitutes = std::move(item.substitutes);
        item = std::move(blank);
    }

    // Movements that nothing is known of may ask for what is to be avoided.
    void report_unknown(const Item& item) {
        if (athlete_.avoided.is_empty()) return;
        for (const program::Part& part : item.parts) {
            if (part.definition || part.is_game) continue;
            sink_.report({Code::avoid_unknown, item.span, {part.name}, {}, {}});
        }
    }

    // A condition speaks of the pattern by its name alone.
    void report_blank(const Item& item, const std::string& avoided) {
        constexpr std::string_view of_pattern = "the pattern ";
        const std::string thing =
            avoided.starts_with(of_pattern) ? avoided.substr(of_pattern.size()) : avoided;
        sink_.report(
            {Code::left_blank,
             item.span,
             {athlete_.name, name_of(item), avoided, kin_words(item), want_words(item), thing},
             {},
             {}});
    }

    // Of the substitutes that are theirs but for kit that they lack, the first.
    [[nodiscard]] std::string want_words(const Item& item) const {
        for (const Substitute& other : item.substitutes) {
            const bool is_theirs = other.group.empty() && is_met(other.condition, true) &&
                                   is_vouched_for(other) &&
                                   !to_be_avoided(program_, athlete_, other.item);
            if (!is_theirs) continue;
            const auto lacking = lacking_kit(program_, athlete_, other.item);
            if (lacking.empty()) continue;
            return " For " + name_of(other.item) + " there is no " + any_of_words(lacking) + ".";
        }
        return "";
    }

    // A movement of the library or the file that the athlete could do, and how it is related: an
    // easier one, else one of the same patterns, else a harder one. Only ever a suggestion.
    [[nodiscard]] std::string kin_words(const Item& item) const {
        const auto& definition = item.parts.front().definition;
        if (!definition) return "";
        const program::Technique& technique = program_.movements[*definition].technique;
        const std::string easier = first_possible(technique.easier);
        if (!easier.empty()) return " Easier is " + easier + ".";
        const std::string like = like_it(*definition);
        if (!like.empty()) return " Of the same kind is " + like + ".";
        const std::string harder = first_possible(technique.harder);
        return harder.empty() ? "" : " Harder, and theirs only if you think so, is " + harder + ".";
    }

    [[nodiscard]] std::string first_possible(const std::vector<std::string>& names) const {
        for (const std::string& name : names) {
            if (const auto id = find(name); id && is_possible(*id)) return name;
        }
        return "";
    }

    // Of the same patterns, and not known to be harder.
    [[nodiscard]] std::string like_it(std::uint32_t definition) const {
        const program::MovementDefinition& movement = program_.movements[definition];
        if (movement.patterns.empty()) return "";
        const auto& harder = movement.technique.harder;
        for (std::uint32_t id = 0; id < program_.movements.size(); ++id) {
            const auto& other = program_.movements[id];
            const bool is_harder = std::ranges::any_of(harder, [&](const std::string& name) {
                return fold_name(name) == fold_name(other.name);
            });
            if (id != definition && !is_harder && other.patterns == movement.patterns &&
                is_possible(id))
                return other.name;
        }
        return "";
    }

    [[nodiscard]] std::optional<std::uint32_t> find(const std::string& name) const {
        const std::string folded = fold_name(name);
        for (std::uint32_t id = 0; id < program_.movements.size(); ++id) {
            if (fold_name(program_.movements[id].name) == folded) return id;
        }
        return std::nullopt;
    }

    [[nodiscard]] bool is_possible(std::uint32_t id) const {
        Item item;
        program::Part& part = item.parts.emplace_back();
        part.name = program_.movements[id].name;
        part.folded_name = fold_name(part.name);
        part.definition = id;
        return !to_be_avoided(program_, athlete_, item) &&
               lacking_kit(program_, athlete_, item).empty();
    }

    const Program& program_;
    const Athlete& athlete_;
    const std::string& blank_name_;
    DiagnosticSink& sink_;
};

}  // namespace

std::vector<Choice> choose(const Program& program, const Athlete& athlete,
                           const std::string& blank_name, program::Session& session,
                           DiagnosticSink& sink) {
    Chooser chooser(program, athlete, blank_name, sink);
    std::vector<Choice> choices;
    for (std::uint32_t block_id = 0; block_id < session.blocks.size(); ++block_id) {
        program::Block& block = session.blocks[block_id];
        for (std::uint32_t item_id = 0; item_id < block.items.size(); ++item_id) {
            Choice choice = chooser.choose(block.items[item_id]);
            choice.block_id = block_id;
            choice.item_id = item_id;
            choices.push_back(std::move(choice));
        }
    }
    return choices;
}

}  // namespace stave::fit
