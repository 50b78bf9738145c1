#include "backends/report/movements.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <vector>

#include "backends/report/columns.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::report {

namespace {

constexpr wording::Language english = wording::Language::english;

using program::MovementDefinition;

std::string patterns_text(const MovementDefinition& movement) {
    constexpr std::string_view words[] = {
#define STAVE_PATTERN(id, word) word,
#include "grammar/keywords.def"
    };
    std::vector<std::string> texts;
    for (const program::Pattern pattern : movement.patterns)
        texts.emplace_back(words[static_cast<std::size_t>(pattern)]);
    return wording::list(texts);
}

std::string units_text(const MovementDefinition& movement) {
    std::vector<std::string> texts;
    for (const Unit unit : movement.counted_in)
        texts.emplace_back(plural(unit));
    return wording::list(texts);
}

std::string sides_text(const MovementDefinition& movement) {
    if (!movement.sides) return "";
    const bool both = movement.sides->rule == program::SideRule::unsided;
    return both ? "both sides" : wording::sides(english, *movement.sides);
}

std::string kit_text(const MovementDefinition& movement) {
    std::vector<std::string> texts;
    for (const auto& choices : movement.kit) {
        std::string text;
        for (const std::string& choice : choices)
            text += (text.empty() ? "" : " or ") + choice;
        texts.push_back(std::move(text));
    }
    return wording::list(texts);
}

template <typename Kind, typename Words>
std::string words_text(const std::vector<Kind>& kinds, Words words) {
    std::vector<std::string> texts;
    for (const Kind kind : kinds)
        texts.emplace_back(words(kind));
    return wording::list(texts);
}

std::string speed_text(const MovementDefinition& movement) {
    if (!movement.speed) return "";
    return fmt::format("{} s per {}", to_decimal(movement.speed->seconds, 2),
                       singular(movement.speed->per));
}

std::string directions_text(const MovementDefinition& movement) {
    if (movement.directions == 1) return "";
    if (movement.direction_names.empty()) return std::to_string(movement.directions);
    return wording::list(movement.direction_names);
}

}  // namespace

std::string movement_text(const MovementDefinition& movement) {
    std::vector<std::vector<std::string>> facts;
    const auto add = [&](std::string_view what, std::string text) {
        if (!text.empty()) facts.push_back({std::string(what), std::move(text)});
    };
    add("also", wording::list(movement.also));
    add("counted in", units_text(movement));
    add("sides", sides_text(movement));
    add("pattern", patterns_text(movement));
    add("joints", words_text(movement.joints, grammar::joint_words));
    add("kit", kit_text(movement));
    add("loaded with", words_text(movement.loaded_with, grammar::loaded_with_word));
    add("look out for", words_text(movement.demands, grammar::demand_words));
    add("directions", directions_text(movement));
    add("pace", speed_text(movement));
    add("easier", wording::list(movement.technique.easier));
    add("harder", wording::list(movement.technique.harder));
    std::string text = wording::capitalised(movement.name) + "\n" + columns(facts, 2);
    const auto out = std::back_inserter(text);
    std::size_t number = 0;
    for (const std::string& step : movement.technique.steps) {
        ++number;
        fmt::format_to(out, "{}  {}. {}\n", number == 1 ? "\n" : "", number, step);
    }
    if (!movement.cues.empty()) text += '\n';
    for (const std::string& cue : movement.cues)
        fmt::format_to(out, "  Think: {}\n", cue);
    for (const program::Fault& fault : movement.faults)
        fmt::format_to(out, "  If {}: {}\n", fault.what, fault.mend);
    for (const std::string& caution : movement.technique.cautions)
        fmt::format_to(out, "  Take care: {}\n", caution);
    return text;
}

std::string movement_list(std::span<const MovementDefinition* const> movements) {
    std::vector<std::vector<std::string>> rows;
    for (const MovementDefinition* movement : movements) {
        rows.push_back({movement->name, patterns_text(*movement), sides_text(*movement),
                        units_text(*movement), kit_text(*movement)});
    }
    return columns(rows, 0);
}

}  // namespace stave::report
