// The index of the library: names found without reading the definitions.
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>

#include "compiler/analysis/analyse.hpp"
#include "compiler/movements/movements.hpp"
#include "compiler/names/names.hpp"

namespace stave::tests {
namespace {

TEST(Index, finds_what_a_full_reading_finds) {
    movements::Library library;
    const auto snapshot = analysis::analyse(
        "library", std::string(movements::library_text()) + "\nsession: All\nrow: 5 min\n", {});
    const auto& read = snapshot.program.movements;
    ASSERT_EQ(library.all().size(), read.size());
    for (std::size_t i = 0; i < read.size(); ++i) {
        EXPECT_EQ(library.all()[i].name, read[i].name);
        std::vector<std::string> names = read[i].also;
        names.push_back(read[i].name);
        for (const std::string& name : names) {
            const auto found = library.find(fold_name(name));
            ASSERT_TRUE(found) << name;
            EXPECT_EQ(found->name, read[i].name) << name;
        }
    }
}

TEST(Index, gives_each_definition_whole_and_alone) {
    movements::Library library;
    for (const movements::Entry& entry : library.all()) {
        const auto snapshot =
            analysis::analyse("one", std::string(entry.text) + "\nsession: One\nrow: 5 min\n", {});
        EXPECT_FALSE(snapshot.sink.has_errors()) << entry.name;
        ASSERT_EQ(snapshot.program.movements.size(), 1U) << entry.name;
        EXPECT_EQ(snapshot.program.movements.front().name, entry.name);
        EXPECT_GE(snapshot.program.movements.front().technique.steps.size(), 3U) << entry.name;
    }
}

TEST(Index, finds_nothing_where_nothing_is) {
    movements::Library library;
    for (const char* name : {"", "movement", "also", "skiff haul", "push-up,", "push"})
        EXPECT_FALSE(library.find(name)) << name;
}

TEST(Index, gives_the_main_name_that_is_nearest) {
    movements::Library library;
    EXPECT_EQ(library.near("puhs-up"), "push-up");
    EXPECT_EQ(library.near("deadlif"), "deadlift");
    EXPECT_EQ(library.near("romanian deadlfit"), "Romanian deadlift");
    EXPECT_EQ(library.near("prss-up"), "push-up");
    EXPECT_EQ(library.near("skiff haul"), "");
    EXPECT_EQ(library.near("row"), "") << "short names are near too many";
    EXPECT_EQ(library.near(""), "");
}

TEST(Index, is_made_in_a_moment) {
    // About a millisecond in a release build; this bound is for a busy machine and a
    // sanitizer.
    movements::Library library;
    const auto begun = std::chrono::steady_clock::now();
    EXPECT_TRUE(library.find("push-up"));
    EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::milliseconds(500));
}

}  // namespace
}  // namespace stave::tests
