// Random racks, the same in every run, against a search through all that can be put on a bar.

#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <random>

#include "tests/unit/loads/racks_testing.hpp"

namespace stave::loads {
namespace {

using testing::hundredths;
using testing::pound;
using testing::total_of;

// In 1e-10 kg: a hundredth of a kilogram, and of a pound (NIST SP 811, appendix B).
constexpr std::int64_t kilogram_hundredth = 100'000'000;
constexpr std::int64_t pound_hundredth = 45'359'237;

struct Mass {
    std::int64_t count = 0;
    bool is_pounds = false;

    [[nodiscard]] std::int64_t units() const {
        return count * (is_pounds ? pound_hundredth : kilogram_hundredth);
    }
    [[nodiscard]] Ratio kilograms() const {
        return is_pounds ? hundredths(count) * pound : hundredths(count);
    }
};

struct Kind {
    Mass mass;
    std::int64_t pairs = 0;
};

struct Case {
    Mass bar;
    std::vector<Kind> kinds;

    [[nodiscard]] std::vector<Weight> weights() const {
        std::vector<Weight> all;
        for (const Kind& kind : kinds)
            all.push_back({kind.mass.kilograms(), kind.pairs});
        return all;
    }
};

// Of each total the best way: the weights of one side, heaviest first.
using Side = std::vector<std::int64_t>;
using Ways = std::map<std::int64_t, Side>;

bool is_better(const Side& left, const Side& right) {
    return left.size() != right.size() ? left.size() < right.size() : left > right;
}

void search(const Case& rack, std::size_t kind, std::int64_t total, Side& side, Ways& ways) {
    if (kind == rack.kinds.size()) {
        Side sorted = side;
        std::sort(sorted.rbegin(), sorted.rend());
        const auto [found, is_new] = ways.emplace(total, sorted);
        if (!is_new && is_better(sorted, found->second)) found->second = sorted;
        return;
    }
    const std::int64_t units = rack.kinds[kind].mass.units();
    for (std::int64_t pairs = 0; pairs <= rack.kinds[kind].pairs; ++pairs) {
        search(rack, kind + 1, total + 2 * pairs * units, side, ways);
        side.push_back(units);
    }
    side.resize(side.size() - static_cast<std::size_t>(rack.kinds[kind].pairs + 1));
}

class Racks : public ::testing::Test {
protected:
    [[nodiscard]] std::int64_t pick(std::int64_t least, std::int64_t most) {
        // The engine is the same everywhere, the library's distributions are not.
        const auto width = static_cast<std::uint64_t>(most - least + 1);
        return least + static_cast<std::int64_t>(engine_() % width);
    }

    [[nodiscard]] Mass plate() {
        constexpr std::int64_t common[] = {2500, 2000, 1500, 1000, 500, 250,
                                           200,  150,  125,  100,  50};
        constexpr std::int64_t pounds[] = {4500, 3500, 2500, 1000, 500, 250};
        switch (pick(0, 3)) {
            case 0:
                return {pounds[pick(0, 5)], true};
            case 1:
                return {pick(1, 2600), pick(0, 3) == 0};
            default:
                return {common[pick(0, 10)], false};
        }
    }

    [[nodiscard]] Case rack() {
        Case made;
        made.bar = pick(0, 3) == 0 ? Mass{4500, true} : Mass{pick(1, 4) * 500, false};
        const std::int64_t kinds = pick(0, 5);
        for (std::int64_t i = 0; i < kinds; ++i)
            made.kinds.push_back({plate(), pick(0, 3)});
        return made;
    }

    std::mt19937_64 engine_{20261126};
};

std::int64_t units_of(const Case& rack, const std::vector<std::size_t>& ids) {
    std::int64_t units = rack.bar.units();
    for (const std::size_t id : ids)
        units += 2 * rack.kinds.at(id).mass.units();
    return units;
}

Side side_of(const Case& rack, const std::vector<std::size_t>& ids) {
    Side side;
    for (const std::size_t id : ids)
        side.push_back(rack.kinds.at(id).mass.units());
    return side;
}

// What the search through everything says.
struct Expected {
    std::optional<std::int64_t> below;
    std::optional<std::int64_t> above;
    bool is_exact = false;

    [[nodiscard]] std::int64_t towards(Direction direction, std::int64_t wanted) const {
        if (is_exact) return wanted;
        if (!below) return *above;
        if (!above) return *below;
        if (direction == Direction::up) return *above;
        if (direction == Direction::down) return *below;
        return *above - wanted < wanted - *below ? *above : *below;
    }
};

Expected expect(const Ways& ways, std::int64_t wanted) {
    Expected expected;
    const auto above = ways.lower_bound(wanted);
    expected.is_exact = above != ways.end() && above->first == wanted;
    if (above != ways.end()) expected.above = above->first;
    if (above != ways.begin()) expected.below = std::prev(above)->first;
    return expected;
}

std::optional<std::int64_t> total(const Case& rack,
                                  const std::optional<std::vector<std::size_t>>& ids) {
    if (!ids) return std::nullopt;
    return units_of(rack, *ids);
}

void compare(const Case& rack, const ReachableLoads& reachable, const Ways& ways, Mass wanted) {
    const Expected expected = expect(ways, wanted.units());
    std::map<Direction, std::int64_t> totals;
    for (const Direction direction : {Direction::down, Direction::nearest, Direction::up}) {
        const auto choice = reachable.choose(wanted.kilograms(), direction);
        ASSERT_TRUE(choice);
        const std::int64_t units = units_of(rack, choice->ids);
        EXPECT_EQ(units, expected.towards(direction, wanted.units()));
        EXPECT_EQ(choice->is_exact, expected.is_exact);
        EXPECT_EQ(side_of(rack, choice->ids), ways.at(units));
        // The plates add up to the load, both sides alike, and no pair is taken twice.
        EXPECT_EQ(
            total_of(rack.bar.kilograms(), rack.weights(), choice->ids) * Ratio(10'000'000'000),
            Ratio(units));
        for (std::size_t id = 0; id < rack.kinds.size(); ++id)
            EXPECT_LE(std::ranges::count(choice->ids, id), rack.kinds[id].pairs);
        if (!expected.is_exact) {
            EXPECT_EQ(total(rack, choice->below), expected.below);
            EXPECT_EQ(total(rack, choice->above), expected.above);
        }
        totals[direction] = units;
    }
    EXPECT_LE(totals[Direction::down], totals[Direction::nearest]);
    EXPECT_LE(totals[Direction::nearest], totals[Direction::up]);
}

TEST_F(Racks, are_searched_as_thoroughly_as_by_trying_everything) {
    constexpr int racks = 3000;
    constexpr int wishes = 6;
    for (int i = 0; i < racks && !HasFailure(); ++i) {
        const Case made = rack();
        Ways ways;
        Side side;
        search(made, 0, made.bar.units(), side, ways);
        const ReachableLoads reachable =
            ReachableLoads::of_bar(made.bar.kilograms(), made.weights());
        ASSERT_EQ(reachable.size(), ways.size()) << "rack " << i;
        for (int wish = 0; wish < wishes; ++wish) {
            // Up to a little more than all plates weigh; every third is a load that is there.
            Mass wanted{pick(1, 30'000), pick(0, 2) == 0};
            if (wish % 3 == 0 && !made.kinds.empty() && !made.kinds[0].mass.is_pounds &&
                !made.bar.is_pounds && made.kinds[0].pairs > 0)
                wanted = {made.bar.count + 2 * made.kinds[0].mass.count, false};
            compare(made, reachable, ways, wanted);
        }
        EXPECT_FALSE(HasFailure()) << "rack " << i;
    }
}

// What lies nearest is never further off than half of the widest gap around it.
TEST_F(Racks, leave_at_most_half_a_gap) {
    for (int i = 0; i < 500; ++i) {
        const Case made = rack();
        const ReachableLoads reachable =
            ReachableLoads::of_bar(made.bar.kilograms(), made.weights());
        const Mass wanted{pick(2000, 20'000), false};
        const auto choice = reachable.choose(wanted.kilograms(), Direction::nearest);
        ASSERT_TRUE(choice);
        if (!choice->below || !choice->above) continue;
        const std::int64_t gap = units_of(made, *choice->above) - units_of(made, *choice->below);
        EXPECT_LE(2 * std::abs(units_of(made, choice->ids) - wanted.units()), gap);
    }
}

}  // namespace
}  // namespace stave::loads
