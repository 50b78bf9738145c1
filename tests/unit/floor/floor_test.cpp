// From the notation to the rooms of a session: which things its stations share.
#include "compiler/floor/floor.hpp"

#include <gtest/gtest.h>

#include <string>
#include <utility>

#include "tests/unit/compose/composing.hpp"

namespace stave {

namespace {

struct Laid {
    analysis::Snapshot snapshot;
    std::vector<floors::BlockRota> blocks;
};

Laid lay_out(const std::string& kit, const std::string& block, int people) {
    Laid laid;
    laid.snapshot = tests::analyse_with_library("session 1: Slipway\nkit: " + kit + "\n" + block);
    std::size_t left = floors::most_visits_of_run;
    EXPECT_FALSE(laid.snapshot.sink.has_errors()) << tests::problem_lines(laid.snapshot);
    if (laid.snapshot.sink.has_errors()) return laid;
    laid.blocks = floors::rotas(laid.snapshot.program, laid.snapshot.program.sessions.front(),
                                laid.snapshot.timelines.front(), people, left);
    return laid;
}

constexpr const char* circuit =
    "circuit Deck: 3 rounds, rest 60 s\n"
    "row: 200 m\n"
    "swing: 15 @ 16 kg\n"
    "goblet squat: 10 @ 16 kg\n"
    "push-up: 10\n";

std::size_t length_of(const std::string& kit, int people) {
    const Laid laid = lay_out(kit, circuit, people);
    if (laid.blocks.size() != 1 || !laid.blocks.front().rota) return 0;
    return laid.blocks.front().rota->where.size();
}

// 8 people, 3 rounds: 24 turns at the one rower; 48 at the bells, of which there are three.
// Arithmetic, no source.
TEST(Floor, is_bound_by_the_thing_with_the_most_turns_for_each_of_it) {
    EXPECT_EQ(length_of("rower, 3 kettlebells 16 kg", 8), 24U);
    EXPECT_EQ(length_of("2 rowers, 3 kettlebells 16 kg", 8), 16U);
    EXPECT_EQ(length_of("8 rowers, 8 kettlebells 16 kg", 8), 12U);
}

// Swings and squats take the same bell: 2 stations x 3 rounds x 4 people.
TEST(Floor, shares_a_bell_between_the_stations_that_need_it) {
    EXPECT_EQ(length_of("4 rowers, kettlebell 16 kg", 4), 24U);
    EXPECT_EQ(length_of("4 rowers, 2 kettlebells 16 kg", 4), 12U);
}

TEST(Floor, says_what_to_buy) {
    const Laid laid = lay_out("rower, 8 kettlebells 16 kg", circuit, 8);
    ASSERT_EQ(laid.blocks.size(), 1U);
    const auto& buying = laid.blocks.front().advice.buying;
    ASSERT_TRUE(buying);
    ASSERT_EQ(buying->purchases.size(), 1U);
    const auto& room = laid.blocks.front().made.room;
    EXPECT_EQ(room.resources[buying->purchases.front().resource_id].name, "rower");
    EXPECT_EQ(buying->intervals, 12);
}

TEST(Floor, has_no_rota_where_one_thing_is_too_few_for_anybody) {
    const Laid laid = lay_out("rower, kettlebell 16 kg",
                              "circuit: 3 rounds\nfarmer carry: 20 m @ 2 x 16 kg\n", 4);
    ASSERT_EQ(laid.blocks.size(), 1U);
    EXPECT_FALSE(laid.blocks.front().rota);
    EXPECT_EQ(laid.blocks.front().made.too_few.size(), 1U);
}

TEST(Floor, leaves_out_what_everybody_does_at_once) {
    EXPECT_TRUE(lay_out("rower", "sets:\npush-up: 3 x 8\n", 8).blocks.empty());
}

}  // namespace

}  // namespace stave
