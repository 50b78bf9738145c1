// Tables that advice is held against: the values as published, and where they end.

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <string_view>

#include "compiler/loads/equations.hpp"
#include "grammar/vocabulary.hpp"
#include "tests/published/analysed.hpp"

namespace stave {
namespace {

using stave::testing::analysed;

struct Row {
    int reps;
    int percent;
};

// NSCA Training Load Chart (NSCA's Essentials of Strength Training and Conditioning,
// its free chart), rows of 1 to 10 and 12 repetitions. The book's own table has 67 %
// for 12, from memory; the chart is what is used.
constexpr Row load_chart[] = {{1, 100}, {2, 95}, {3, 93}, {4, 90},  {5, 87}, {6, 85},
                              {7, 83},  {8, 80}, {9, 77}, {10, 75}, {12, 70}};

TEST(LoadChart, has_the_published_rows) {
    for (const Row& row : load_chart) {
        const auto found = loads::chart_row(Ratio(row.percent, 100));
        ASSERT_TRUE(found) << row.percent;
        EXPECT_EQ(found->reps, row.reps) << row.percent;
        EXPECT_EQ(found->share, Ratio(row.percent, 100));
    }
}

// Between two rows the lighter one would allow more than the chart says, so the
// heavier one counts; that is this program's convention.
TEST(LoadChart, takes_the_heavier_row_between_two) {
    EXPECT_EQ(loads::chart_row(Ratio(76, 100))->reps, 9);
    EXPECT_EQ(loads::chart_row(Ratio(151, 200))->reps, 9);
    EXPECT_EQ(loads::chart_row(Ratio(71, 100))->reps, 10);
    EXPECT_EQ(loads::chart_row(Ratio(97, 100))->reps, 1);
}

TEST(LoadChart, says_nothing_below_its_last_row_and_one_above_its_first) {
    EXPECT_FALSE(loads::chart_row(Ratio(139, 200)));
    EXPECT_FALSE(loads::chart_row(Ratio(0)));
    EXPECT_EQ(loads::chart_row(Ratio(110, 100))->reps, 1);
}

bool is_warned_of(const std::string& line, Code code) {
    const auto snapshot =
        analysed("session: A\nwarm-up:\nskip: 5 min\nsets: rest 2 min\n" + line + "\n");
    return std::ranges::any_of(snapshot.sink.sorted(), [code](const Diagnostic& diagnostic) {
        return diagnostic.code == code;
    });
}

TEST(LoadChart, allows_its_own_rows_and_warns_of_one_more) {
    for (const Row& row : load_chart) {
        const std::string share = " @ " + std::to_string(row.percent) + " %";
        EXPECT_FALSE(
            is_warned_of("squat: " + std::to_string(row.reps) + share, Code::reps_over_table));
        EXPECT_TRUE(
            is_warned_of("squat: " + std::to_string(row.reps + 1) + share, Code::reps_over_table));
    }
}

struct Range {
    std::string_view joint;
    int degrees;
};

// Average ranges of the American Academy of Orthopaedic Surgeons, as printed in Norkin
// and White, Measurement of Joint Motion, table A.1.
constexpr Range of_surgeons[] = {
    {"shoulder flexion", 180},
    {"shoulder extension", 60},
    {"shoulder abduction", 180},
    {"shoulder internal rotation", 70},
    {"shoulder external rotation", 90},
    {"elbow flexion", 150},
    {"forearm pronation", 80},
    {"forearm supination", 80},
    {"wrist flexion", 80},
    {"wrist extension", 70},
};

// The same table, from memory.
constexpr Range of_surgeons_from_memory[] = {
    {"hip flexion", 120},  {"hip extension", 30},         {"hip abduction", 45},
    {"hip adduction", 30}, {"hip internal rotation", 45}, {"hip external rotation", 45},
    {"knee flexion", 135}, {"ankle dorsiflexion", 20},    {"ankle plantar flexion", 50},
};

// 38 CFR 4.71a, plate V and note 2 of the general rating formula for the spine, from
// memory.
constexpr Range of_regulations[] = {
    {"trunk flexion", 90}, {"trunk extension", 30}, {"trunk rotation", 30}, {"trunk side bend", 30},
    {"neck flexion", 45},  {"neck extension", 45},  {"neck rotation", 80},  {"neck side bend", 45},
};

template <typename Ranges>
void expect_ranges(const Ranges& ranges, std::string_view source) {
    for (const Range& range : ranges) {
        const auto joint = grammar::find_joint(range.joint);
        ASSERT_TRUE(joint) << range.joint;
        EXPECT_EQ(grammar::joint_range(*joint).degrees, range.degrees) << range.joint;
        EXPECT_EQ(grammar::joint_range(*joint).source, source) << range.joint;
    }
}

TEST(JointRanges, are_those_of_the_named_source) {
    expect_ranges(of_surgeons, "AAOS");
    expect_ranges(of_surgeons_from_memory, "AAOS");
    expect_ranges(of_regulations, "38 CFR 4.71a");
}

// No source gives these two a range to hold an arc against.
TEST(JointRanges, are_left_open_for_elbow_and_knee_extension) {
    for (const std::string_view joint : {"elbow extension", "knee extension"}) {
        EXPECT_EQ(grammar::joint_range(*grammar::find_joint(joint)).degrees, 0);
    }
}

TEST(JointRanges, are_reached_without_a_word_and_passed_with_a_warning) {
    const auto bend = [](int degrees, const std::string& joints) {
        const auto snapshot =
            analysed("movement bend:\njoint: " + joints + "\nsession: A\nbend: 8, arc " +
                     std::to_string(degrees) + " deg\n");
        return snapshot.sink.sorted().size();
    };
    EXPECT_EQ(bend(135, "knee flexion"), 0U);
    EXPECT_EQ(bend(136, "knee flexion"), 1U);
    // Of several the widest counts; one without a range says nothing.
    EXPECT_EQ(bend(136, "knee flexion, shoulder flexion"), 0U);
    EXPECT_EQ(bend(136, "knee flexion, knee extension"), 0U);
}

}  // namespace
}  // namespace stave
