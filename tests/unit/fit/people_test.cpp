// Who does a session, and which of its lines. The rules are the notation's own.

#include "compiler/fit/people.hpp"

#include "tests/unit/fit/fitting.hpp"

namespace stave {
namespace {

using testing::fitted;
using testing::Person;

const std::string crew =
    "athlete Mara:\n  weight: 60 kg\n"
    "athlete Jonas:\n  weight: 80 kg\n"
    "athlete Inke:\n  weight: 70 kg\n"
    "squad group A: Mara\n"
    "squad level 2: Jonas\n"
    "squad boat: group A, level 2\n"
    "squad pier: boat, Inke\n\n";

std::vector<std::uint32_t> people(const std::string& head) {
    const analysis::Snapshot snapshot = tests::analyse_with_library(
        crew + "session 1: Slipway\nwhen: 2026-12-01 18:00\n" + head + "sets:\n  push-up: 8\n");
    EXPECT_EQ(snapshot.people.size(), 1U) << tests::problem_lines(snapshot);
    return snapshot.people.empty() ? std::vector<std::uint32_t>{} : snapshot.people[0];
}

using Ids = std::vector<std::uint32_t>;

TEST(People, are_those_of_the_for_line) {
    EXPECT_EQ(people(""), (Ids{0, 1, 2}));
    EXPECT_EQ(people("for: Inke\n"), (Ids{2}));
    EXPECT_EQ(people("for: Inke, Mara\n"), (Ids{0, 2}));
}

TEST(People, of_squads_in_squads_come_once) {
    EXPECT_EQ(people("for: group A\n"), (Ids{0}));
    EXPECT_EQ(people("for: boat\n"), (Ids{0, 1}));
    EXPECT_EQ(people("for: pier\n"), (Ids{0, 1, 2}));
    EXPECT_EQ(people("for: boat, Mara\n"), (Ids{0, 1}));
    EXPECT_EQ(people("for: BOAT\n"), (Ids{0, 1}));
}

TEST(People, know_the_squads_that_they_are_in) {
    const analysis::Snapshot snapshot = tests::analyse_with_library(crew);
    EXPECT_EQ(fit::squads_of(snapshot.program, 0),
              (std::vector<std::string>{"group a", "boat", "pier"}));
    EXPECT_EQ(fit::squads_of(snapshot.program, 2), (std::vector<std::string>{"pier"}));
}

// "group A" and "level 2" are squads: their lines are those of their people.
TEST(People, do_the_lines_of_their_squads) {
    const analysis::Snapshot snapshot = tests::analyse_with_library(
        crew + testing::session("push-up: 10\n  group A: 6\n  level 2: 12\n"));
    const auto reps = [&](std::uint32_t id) {
        return testing::item(fitted(snapshot, id)).parts.at(0).amounts.at(0).low.value;
    };
    EXPECT_EQ(reps(0), Ratio(6));
    EXPECT_EQ(reps(1), Ratio(12));
    EXPECT_EQ(reps(2), Ratio(10));
}

TEST(People, have_cards_with_their_own_name_alone) {
    const analysis::Snapshot snapshot = tests::analyse_with_library(
        crew + testing::session("goblet squat: 3 x 8 @ 20 % of bodyweight\n"));
    const char* loads[] = {"12.5 kg", "15 kg", "15 kg"};
    const char* names[] = {"Mara", "Jonas", "Inke"};
    for (std::uint32_t id = 0; id < 3; ++id) {
        const Person person = fitted(snapshot, id);
        EXPECT_EQ(testing::loads_of(person), loads[id]);
        EXPECT_EQ(person.session.audience, std::vector<std::string>{names[id]});
    }
}

}  // namespace
}  // namespace stave
