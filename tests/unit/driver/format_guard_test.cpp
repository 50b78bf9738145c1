// What `stave format` asks before it changes a file.
#include <gtest/gtest.h>

#include "compiler/driver/format_guard.hpp"

namespace stave::driver {
namespace {

const std::string before =
    "session 7: Slack water   # low\n"
    "sets Haul: rest 2 min\n"
    "deadlift:4x5 @ 60kg\n"
    "  cue: bar   close\n"
    "routine Legs: reps 8\n"
    "  squat: [reps] @ 40 kg\n"
    "plan Autumn:\n"
    "  grow row: 2.5 kg each week\n";

const std::string after =
    "session 7: Slack water   # low\n"
    "sets Haul: rest 2 min\n"
    "  deadlift: 4 x 5 @ 60 kg\n"
    "    cue: bar close\n"
    "routine Legs: reps 8\n"
    "  squat: [reps] @ 40 kg\n"
    "plan Autumn:\n"
    "  grow row: 2.5 kg each week\n";

std::string changed(const std::string& from, const std::string& to) {
    std::string text = after;
    text.replace(text.find(from), from.size(), to);
    return text;
}

TEST(FormatGuard, lets_layout_and_spelling_change) {
    EXPECT_TRUE(means_the_same(before, after));
    EXPECT_TRUE(means_the_same(after, after));
    EXPECT_TRUE(means_the_same(before, changed("sets Haul", "Sets  Haul")));
}

TEST(FormatGuard, stops_every_change_of_what_is_said) {
    for (const auto& [from, to] : {
             std::pair{"60 kg", "60.001 kg"},
             {"60 kg", "60 lb"},
             {"4 x 5", "5 x 4"},
             {"2 min", "3 min"},
             {"bar close", "bar closer"},
             {"    cue: bar close\n", ""},
             {"# low", "# high"},
             {"   # low", ""},
             {"[reps] @ 40", "[reps] @ 50"},
             {"[reps] @ 40", "[rep] @ 40"},
             {"reps 8", "reps 9"},
             {"grow row", "grow rows"},
             {"2.5 kg each", "2.4 kg each"},
             {"session 7", "session 8"},
             {"Slack water", "Slack  Water"},
             {"plan Autumn:", "plan Winter:"},
             {"4 x 5", "4 x"},
         }) {
        EXPECT_FALSE(means_the_same(before, changed(from, to))) << from << " as " << to;
    }
}

TEST(FormatGuard, passes_nothing_that_is_broken) {
    EXPECT_FALSE(means_the_same("session: A\nsquat: 5 x\n", "session: A\nsquat: 5 x\n"));
    EXPECT_FALSE(means_the_same("session: \xff\n", "session: \xff\n"));
}

}  // namespace
}  // namespace stave::driver
