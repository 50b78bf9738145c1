// What the kit line of somebody's own card names: the rule is the notation's own.

#include "compiler/wording/wording.hpp"
#include "tests/unit/fit/fitting.hpp"

namespace stave {
namespace {

using testing::fitted;

// On the card of Mara, who has this kit; the session's lines begin behind its `when`.
std::string needed(const std::string& kit, const std::string& lines) {
    const testing::Person person = fitted("athlete Mara:\n" + kit +
                                          "  test deadlift: 1 @ 100 kg on 2026-11-03\n\n"
                                          "session 1: Slipway\nwhen: 2026-12-01 18:00\n" +
                                          lines);
    std::string text = wording::kit(wording::Language::english, person.session.kit);
    for (std::size_t at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0"))
        text.replace(at, std::string_view("\u00A0").size(), " ");
    return text;
}

const std::string bells = "  kit: 2 kettlebells 8 12 16 kg, box 40 cm, box 60 cm, mat, rower\n";

TEST(NeededKit, is_of_the_room_where_nobody_says_what_they_have) {
    EXPECT_EQ(needed("", "kit: 2 barbells 20 kg, rower\nsets:\ndeadlift: 5 @ 60 kg\n"),
              "2 barbells 20 kg, rower");
}

TEST(NeededKit, is_what_the_movements_ask_for) {
    EXPECT_EQ(needed(bells, "sets:\npush-up: 8\n"), "");
    EXPECT_EQ(needed(bells, "sets:\nrow: 500 m\n"), "rower");
    EXPECT_EQ(needed("  kit: none\n", "kit: rower\nsets:\nrow: 500 m\n"), "");
}

TEST(NeededKit, has_the_weights_that_are_lifted) {
    EXPECT_EQ(needed(bells, "sets:\nkettlebell swing: 12 @ 16 kg\n"), "kettlebell 16 kg");
    EXPECT_EQ(
        needed(bells, "sets:\nkettlebell swing: 12 @ 2 x 12 kg\nkettlebell swing: 8 @ 8 kg\n"),
        "2 kettlebells 8 12 kg");
    // Nobody says which one.
    EXPECT_EQ(needed(bells, "sets:\nkettlebell swing: 12\n"), "kettlebells 8 12 16 kg");
}

TEST(NeededKit, has_the_box_of_the_height_that_is_asked_for) {
    EXPECT_EQ(needed(bells, "sets:\nbox jump: 5, from 60 cm\n"), "box 60 cm");
    EXPECT_EQ(needed(bells, "sets:\nbox jump: 5\n"), "box 40 cm, box 60 cm");
}

// 100 lb are a bar of 45 lb and 27.5 lb on each side, 185 lb 70 lb. Arithmetic, no source.
TEST(NeededKit, has_as_many_plates_as_the_fullest_bar_takes) {
    const std::string bar = "  kit: barbell 45 lb, rack, pairs of plates 45 35 25 10 5 2.5 lb\n";
    EXPECT_EQ(needed(bar, "sets:\ndeadlift: 5 @ 100 lb\n"),
              "barbell 45 lb, pairs of plates 25 2.5 lb");
    EXPECT_EQ(needed(bar, "sets:\ndeadlift: 5-5-5 @ 100-100-185 lb\n"),
              "barbell 45 lb, pairs of plates 45 25 2.5 lb");
    EXPECT_EQ(needed(bar, "sets:\ndeadlift: 5 @ 45 lb\n"), "barbell 45 lb");
    EXPECT_EQ(needed("  kit: 2 barbells 20 kg, 4 pairs of plates 20 10 kg\n",
                     "sets:\ndeadlift: 5 @ 120 kg\n"),
              "barbell 20 kg, 2 pairs of plates 20 kg, pair of plates 10 kg");
    EXPECT_EQ(needed("  kit: barbell 20 kg, 4 plates 20 kg, 2 collars 2.5 kg\n",
                     "sets:\ndeadlift: 5 @ 65 kg\n"),
              "barbell 20 kg, 2 plates 20 kg, 2 collars 2.5 kg");
}

TEST(NeededKit, names_nothing_for_what_they_cannot_do) {
    EXPECT_EQ(needed("  kit: barbell 20 kg, plates 20 kg, box 40 cm\n",
                     "sets:\nback squat: 5 @ 60 kg\nbox jump: 5\n"),
              "box 40 cm");
}

// No movement asks for a mat.
TEST(NeededKit, has_what_the_session_lists_for_no_movement) {
    EXPECT_EQ(needed(bells, "kit: mats, clock, 2 barbells 20 kg\nsets:\npush-up: 8\n"), "mat");
}

TEST(NeededKit, has_the_band_that_is_named) {
    EXPECT_EQ(
        needed("  kit: band light, band heavy\n", "sets:\nband pull-apart: 12 @ band heavy\n"),
        "band heavy");
}

}  // namespace
}  // namespace stave
