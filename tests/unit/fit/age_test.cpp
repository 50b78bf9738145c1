// Age groups: which are read, and for whom heavy sets are noted. The ages and the nine tenths are
// common practice, no source; what is held here is the notation's own promise.

#include "compiler/check/age_groups.hpp"
#include "tests/unit/fit/fitting.hpp"

namespace stave {
namespace {

using program::AgeGroup;
using testing::fitted;
using testing::loads_of;
using testing::Person;
using testing::session;

const std::string heavy = session("deadlift: 3 x 1 @ 95 %\n");

Person of_age(const std::string& age, const std::string& sessions = heavy) {
    const std::string line = age.empty() ? "" : "  age group: " + age + "\n";
    return fitted("athlete Nils:\n" + line + "  test deadlift: 1 @ 100 kg on 2026-11-02\n\n" +
                  sessions);
}

TEST(AgeGroups, are_read_within_their_bounds) {
    const auto years = [](const char* text, AgeGroup::Bound bound) {
        const auto group = check::read_age_group(text);
        return group && group->bound == bound ? group->years : -1;
    };
    EXPECT_EQ(years("under 6", AgeGroup::Bound::under), 6);
    EXPECT_EQ(years("under 23", AgeGroup::Bound::under), 23);
    EXPECT_EQ(years("adult", AgeGroup::Bound::adult), 0);
    EXPECT_EQ(years("over 35", AgeGroup::Bound::over), 35);
    EXPECT_EQ(years("over 90", AgeGroup::Bound::over), 90);
    for (const char* text :
         {"", "under", "under ", "under 5", "under 24", "over 34", "over 91", "under 16 years",
          "under -8", "under 99999999999", "over 60.5", "16", "adults", "youth"}) {
        EXPECT_FALSE(check::read_age_group(text)) << text;
    }
}

TEST(AgeGroups, have_heavy_sets_noted_for_the_young_and_the_old) {
    for (const char* age : {"under 6", "under 16", "under 18", "over 60", "over 75"})
        EXPECT_EQ(of_age(age).problems, "age-heavy") << age;
    for (const char* age : {"", "under 19", "under 23", "adult", "over 35", "over 59"})
        EXPECT_EQ(of_age(age).problems, "") << age;
}

TEST(AgeGroups, change_no_load) {
    for (const char* age : {"", "under 16", "adult", "over 60"})
        EXPECT_EQ(loads_of(of_age(age)), "95 kg") << age;
}

// 90 of 100 kg is nine tenths, and 89 below.
TEST(AgeGroups, note_what_is_nine_tenths_of_a_max_or_more) {
    const auto problems = [](const std::string& line) {
        return of_age("under 16", session("deadlift: " + line + "\n")).problems;
    };
    EXPECT_EQ(problems("3 x 3 @ 90 %"), "age-heavy");
    EXPECT_EQ(problems("3 x 3 @ 87.5 %"), "");
    EXPECT_EQ(problems("3 x 3 @ 90 kg"), "age-heavy");
    EXPECT_EQ(problems("3 x 3 @ 80 kg"), "");
    EXPECT_EQ(problems("5-3-1 @ 80-85-95 %"), "age-heavy");
    EXPECT_EQ(problems("build to 1"), "age-heavy");
    EXPECT_EQ(problems("build to 5"), "");
    EXPECT_EQ(problems("1 @ 1 rep max"), "age-heavy");
    EXPECT_EQ(problems("8 @ 8 rep max"), "");
}

TEST(AgeGroups, note_limit_sets_without_a_test) {
    const auto problems = [](const std::string& line) {
        return fitted("athlete Nils:\n  age group: under 16\n\n" + session(line)).problems;
    };
    EXPECT_EQ(problems("deadlift: 3 x 2, RPE 10\n"), "age-heavy");
    EXPECT_EQ(problems("deadlift: 3 x 2, RPE 9\n"), "");
    EXPECT_EQ(problems("deadlift: 3 x 2, 2 in reserve\n"), "");
    EXPECT_EQ(problems("push-up: 3 x 12, RPE 10\n"), "");
}

}  // namespace
}  // namespace stave
