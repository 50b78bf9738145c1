#include "compiler/schedule/groups.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

#include "compiler/names/names.hpp"

namespace stave::schedule {

namespace {

constexpr std::string_view group_word = "Group ";

constexpr std::string_view level_word = "Level ";

bool is_of_groups(const program::Substitute& substitute) {
    return substitute.group.starts_with(group_word);
}

void add_new(std::vector<std::string>& texts, const std::vector<std::string>& more) {
    for (const std::string& text : more) {
        if (std::ranges::find(texts, text) == texts.end()) texts.push_back(text);
    }
}

bool is_of_levels(const program::Substitute& substitute) {
    return substitute.group.starts_with(level_word);
}

// Words that stand below the line of a group are for everybody: none may get lost, since
// they may be what keeps people safe.
void gather_words(program::Item& item) {
    for (const program::Substitute& one : item.substitutes) {
        if (!is_of_groups(one)) continue;
        add_new(item.cues, one.item.cues);
        add_new(item.counts, one.item.counts);
        add_new(item.notes, one.item.notes);
        add_new(item.stops, one.item.stops);
        add_new(item.options, one.item.options);
        for (const program::Fault& fault : one.item.faults) {
            if (std::ranges::find(item.faults, fault) == item.faults.end())
                item.faults.push_back(fault);
        }
    }
}

// What the line of a group leaves unsaid is as the movement's line has it; lists of loads
// are made to fit its sets.
void inherit(program::Item& chosen, const program::Item& item) {
    chosen.cues = item.cues;
    chosen.faults = item.faults;
    chosen.counts = item.counts;
    chosen.notes = item.notes;
    chosen.stops = item.stops;
    chosen.options = item.options;
    chosen.rest_after = item.rest_after;
    if (!chosen.rest) chosen.rest = item.rest;
    if (!chosen.rest_between_sides) chosen.rest_between_sides = item.rest_between_sides;
    if (!chosen.tempo) chosen.tempo = item.tempo;
    if (!chosen.hold) chosen.hold = item.hold;
    if (!chosen.arc) chosen.arc = item.arc;
    if (chosen.sides == program::Sides{}) chosen.sides = item.sides;
    for (const program::Detail& detail : item.details) {
        // What belongs to the amounts themselves is not taken over with other amounts.
        const bool is_of_amounts = std::holds_alternative<program::Pieces>(detail) ||
                                   std::holds_alternative<program::Within>(detail) ||
                                   std::holds_alternative<program::LoadChange>(detail) ||
                                   std::holds_alternative<program::Incline>(detail);
        const bool is_said = std::ranges::any_of(chosen.details, [&](const program::Detail& own) {
            return own.index() == detail.index();
        });
        if (!is_of_amounts && !is_said) chosen.details.push_back(detail);
    }
    if (!chosen.loads.empty() || item.loads.empty()) return;
    chosen.loads = item.loads;
    if (chosen.loads.size() > 1) {
        const program::Load last = chosen.loads.back();
        chosen.loads.resize(chosen.set_count(), last);
    }
}

// The line takes the place of the movement's own.
void take(program::Item& item, program::Substitute& line) {
    program::Item chosen = std::move(line.item);
    inherit(chosen, item);
    chosen.substitutes = std::move(item.substitutes);
    item = std::move(chosen);
}

// The line of the group takes the place of the movement's own; those of other groups go.
void choose_line(program::Item& item, const std::string& folded_group) {
    gather_words(item);
    const auto own = std::ranges::find_if(item.substitutes, [&](const program::Substitute& one) {
        return is_of_groups(one) && fold_name(one.group) == folded_group;
    });
    if (own != item.substitutes.end()) take(item, *own);
    std::erase_if(item.substitutes, is_of_groups);
}

// The first line that is for one of the squads takes the place of the movement's own, and
// those for others go; where none is, whoever it is may still choose.
void choose_line_of_squads(program::Item& item, const std::vector<std::string>& folded_squads) {
    const auto is_own = [&](const program::Substitute& one) {
        if (!is_of_groups(one) && !is_of_levels(one)) return false;
        const std::string whole = fold_name(one.group);
        const std::string name = whole.substr(whole.find(' ') + 1);
        return std::ranges::any_of(folded_squads, [&](const std::string& squad) {
            return squad == whole || (is_of_groups(one) && squad == name);
        });
    };
    const auto own = std::ranges::find_if(item.substitutes, is_own);
    if (own == item.substitutes.end()) return;
    gather_words(item);
    take(item, *own);
    std::erase_if(item.substitutes, [](const program::Substitute& one) {
        return is_of_groups(one) || is_of_levels(one);
    });
}

}  // namespace

void choose_group(program::Session& session, const std::string& group) {
    const std::string folded = fold_name(std::string(group_word) + group);
    for (program::Block& block : session.blocks) {
        for (program::Item& item : block.items)
            choose_line(item, folded);
    }
}

void choose_squads(program::Session& session, const std::vector<std::string>& folded_squads) {
    for (program::Block& block : session.blocks) {
        for (program::Item& item : block.items)
            choose_line_of_squads(item, folded_squads);
    }
}

std::vector<std::string> named_in(const program::Session& session) {
    std::vector<std::string> names;
    for (const program::Block& block : session.blocks) {
        for (const program::Item& item : block.items) {
            for (const program::Substitute& line : item.substitutes) {
                if (!line.group.empty() && std::ranges::find(names, line.group) == names.end())
                    names.push_back(line.group);
            }
        }
    }
    return names;
}

void choose_lines(program::Session& session, const std::string& name) {
    choose_squads(session, {fold_name(name)});
}

void remove_lines(program::Session& session) {
    for (program::Block& block : session.blocks) {
        for (program::Item& item : block.items)
            std::erase_if(item.substitutes, [](const auto& line) { return !line.group.empty(); });
    }
}

}  // namespace stave::schedule
