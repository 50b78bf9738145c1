// Every movement that ships with the compiler says what a coach needs of it.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "compiler/analysis/analyse.hpp"
#include "compiler/diagnostics/render.hpp"
#include "compiler/movements/movements.hpp"
#include "compiler/names/names.hpp"

namespace stave::tests {
namespace {

using program::MovementDefinition;

// All definitions as one file, with a session, since a file without one is no file.
const analysis::Snapshot& library() {
    static const analysis::Snapshot snapshot = analysis::analyse(
        "the movement library",
        std::string(movements::library_text()) + "\nsession: All\nrow: 5 min\n", {});
    return snapshot;
}

const std::vector<MovementDefinition>& definitions() {
    return library().program.movements;
}

TEST(Definitions, are_read_without_a_single_problem) {
    const auto sorted = library().sink.sorted();
    EXPECT_EQ(render_line({library().source.get(), sorted, library().sink.dropped()}), "");
}

TEST(Definitions, are_as_many_as_the_notation_says) {
    EXPECT_EQ(definitions().size(), 325U);
}

TEST(Definitions, say_what_is_counted_and_which_pattern_it_is) {
    for (const MovementDefinition& movement : definitions()) {
        EXPECT_FALSE(movement.counted_in.empty()) << movement.name;
        EXPECT_FALSE(movement.patterns.empty()) << movement.name;
    }
}

TEST(Definitions, say_how_it_is_done_and_what_goes_wrong) {
    for (const MovementDefinition& movement : definitions()) {
        EXPECT_GE(movement.technique.steps.size(), 3U) << movement.name;
        EXPECT_GE(movement.cues.size(), 2U) << movement.name;
        EXPECT_GE(movement.faults.size(), 1U) << movement.name;
    }
}

// Done with both sides at once, with one, or in turn, as coaches like (common practice,
// no source): the session says which.
const std::set<std::string> either_way{
    "shoulder tap",
    "shoulder flexion",
    "band turn-out",
    "doorway chest stretch",
    "lat stretch",
    "wrist rock",
    "hip circle",
    "90/90 hip switch",
    "adductor rock",
    "ankle circle",
    "foot arch lift",
    "big toe lift",
    "landmine row",
    "band row",
    "curl",
    "hammer curl",
    "reverse curl",
    "wrist curl",
    "wrist raise",
    "floor press",
    "band chest press",
    "press",
    "seated press",
    "push press",
    "landmine press",
    "triceps extension",
    "lateral raise",
    "front raise",
    "lying knee roll",
    "standing trunk rotation",
    "Russian twist",
};

// What walks, runs or carries goes on both legs, and the session says which hand holds.
TEST(Definitions, say_which_sides_they_have) {
    for (const MovementDefinition& movement : definitions()) {
        const bool moves_on = std::ranges::any_of(movement.patterns, [](grammar::Pattern one) {
            return one == grammar::Pattern::gait || one == grammar::Pattern::carry;
        });
        const bool is_free = moves_on || either_way.contains(movement.name);
        EXPECT_TRUE(movement.sides || is_free) << movement.name;
        EXPECT_FALSE(movement.sides && either_way.contains(movement.name)) << movement.name;
    }
}

TEST(Definitions, have_each_name_once) {
    std::map<std::string, std::string> names;
    for (const MovementDefinition& movement : definitions()) {
        std::vector<std::string> own = movement.also;
        own.push_back(movement.name);
        for (const std::string& name : own) {
            const auto [found, added] = names.emplace(fold_name(name), movement.name);
            EXPECT_TRUE(added) << name << " of " << movement.name << " and " << found->second;
        }
    }
}

TEST(Definitions, name_each_other_as_easier_and_harder) {
    std::set<std::string> names;
    for (const MovementDefinition& movement : definitions())
        names.insert(fold_name(movement.name));
    for (const MovementDefinition& movement : definitions()) {
        for (const auto* list : {&movement.technique.easier, &movement.technique.harder}) {
            for (const std::string& name : *list) {
                EXPECT_TRUE(names.contains(fold_name(name))) << name << " of " << movement.name;
                EXPECT_NE(fold_name(name), fold_name(movement.name));
            }
        }
    }
}

TEST(Definitions, are_never_both_easier_and_harder_than_each_other) {
    std::set<std::pair<std::string, std::string>> harder;
    for (const MovementDefinition& movement : definitions()) {
        for (const std::string& name : movement.technique.harder)
            harder.emplace(fold_name(movement.name), fold_name(name));
        for (const std::string& name : movement.technique.easier)
            harder.emplace(fold_name(name), fold_name(movement.name));
    }
    for (const auto& [easy, hard] : harder)
        EXPECT_FALSE(harder.contains({hard, easy})) << easy << " and " << hard;
}

TEST(Definitions, have_at_least_eight_of_each_pattern) {
    std::map<grammar::Pattern, std::size_t> counts;
    for (const MovementDefinition& movement : definitions()) {
        for (const grammar::Pattern pattern : movement.patterns)
            ++counts[pattern];
    }
    constexpr std::pair<grammar::Pattern, const char*> patterns[] = {
#define STAVE_PATTERN(id, word) {grammar::Pattern::id, word},
#include "grammar/keywords.def"
    };
    for (const auto& [pattern, word] : patterns)
        EXPECT_GE(counts[pattern], 8U) << word;
}

}  // namespace
}  // namespace stave::tests
