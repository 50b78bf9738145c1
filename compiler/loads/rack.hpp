// What weights can be made of what is there, and the one nearest to a load.
//
// The search is exact: with one pair of 20 kg and two of 15 kg, 30 kg a side is made of both 15s,
// which taking the heaviest first would miss. Of several ways to one weight the one with the
// fewest plates counts, then the one with heavier ones.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "compiler/quantity/ratio.hpp"

namespace stave::loads {

// A weight, above 0, and how many there are of it; of plates how many pairs.
struct Weight {
    Ratio kilograms;
    std::int64_t count = 1;
};

enum class Direction : std::uint8_t { nearest, down, up };

// Weights are told apart to 1e-10 kg, which holds every weight of kilograms with ten decimals
// and of pounds with two.
class ReachableLoads {
public:
    // At most this many weights; plates that would make more are left out.
    static constexpr std::size_t most_reachable = 16'384;
    // More of one plate do not go on a bar, and nobody lifts more on one (common practice, no
    // source).
    static constexpr std::int64_t most_of_one = 50;
    static constexpr std::int64_t most_kilograms = 1000;

    // A bar with its collars, and the same plates on both sides.
    [[nodiscard]] static ReachableLoads of_bar(Ratio bar_kilograms,
                                               const std::vector<Weight>& pairs);
    // Things that are loads by themselves, taken one or several of a weight at once; the load
    // is that of one.
    [[nodiscard]] static ReachableLoads of_things(const std::vector<Weight>& things,
                                                  std::int64_t at_once);

    // Which of the weights, of a bar the plates of each side or of things the one, by their
    // places in the list, heaviest first; and what lies next to a load that is not there.
    struct Choice {
        std::vector<std::size_t> ids;
        std::optional<std::vector<std::size_t>> below;
        std::optional<std::vector<std::size_t>> above;
        bool is_exact = false;
    };

    // Down goes to the least where nothing is light enough, up to the greatest. A tie goes
    // down (no source settles it; the lighter is the safer). Nothing where nothing can be made.
    [[nodiscard]] std::optional<Choice> choose(Ratio kilograms, Direction direction) const;

    [[nodiscard]] std::size_t size() const { return loads_.size(); }
    // Some plates were left out.
    [[nodiscard]] bool is_cut() const { return is_cut_; }

private:
    // Plates of one more kind, on those of `rest`.
    struct Node {
        std::uint32_t rest = 0;
        std::uint32_t weight_id = 0;
        std::uint32_t count = 0;
    };
    struct Load {
        // In 1e-10 kg.
        std::int64_t units = 0;
        std::uint32_t plates = 0;
        // Of `nodes_`, of which the first is an empty bar.
        std::uint32_t node = 0;
        // While a weight is added: how many of it are on top of the node.
        std::uint32_t added = 0;
        // Greater where the first plate to differ, heaviest first, is heavier.
        std::uint32_t rank = 0;
    };

    void add(std::size_t weight_id, std::int64_t units, std::int64_t count);
    void close(std::size_t weight_id);
    [[nodiscard]] static bool is_before(const Load& left, const Load& right);
    [[nodiscard]] std::vector<std::size_t> ids_of(const Load& load) const;

    // Rising, each weight once.
    std::vector<Load> loads_;
    std::vector<Node> nodes_;
    bool is_cut_ = false;
};

}  // namespace stave::loads
