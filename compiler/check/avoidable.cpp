#include "compiler/check/avoidable.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <vector>

#include "compiler/names/edit_distance.hpp"

namespace stave::check {

namespace {

// Shorter names are near to anything.
constexpr std::size_t shortest = 4;
// From so many letters on two slips are one word still: overhaed, kneling.
constexpr std::size_t shortest_of_two_slips = 7;
// More movements are not searched.
constexpr std::size_t most_searched = 2000;

class Nearest {
public:
    explicit Nearest(const std::string& name)
        : name_(name), least_((name.size() < shortest_of_two_slips ? 1 : 2) + 1) {}

    void meet(std::string_view one) {
        if (name_.size() < shortest || one.size() < shortest) return;
        const std::size_t slips = edit_distance(name_, one, least_ - 1);
        if (slips >= least_) return;
        least_ = slips;
        best_ = one;
    }

    [[nodiscard]] const std::string& best() const { return best_; }

private:
    const std::string& name_;
    // Slips of the best so far.
    std::size_t least_;
    std::string best_;
};

// In an order that does not hang on how they are kept.
std::vector<std::string_view> sorted(const std::unordered_set<std::string>& names) {
    std::vector<std::string_view> all(names.begin(), names.end());
    std::ranges::sort(all);
    all.resize(std::min(all.size(), most_searched));
    return all;
}

}  // namespace

std::string near_avoidable(const std::string& folded,
                           const std::unordered_set<std::string>& movements,
                           const Definitions& definitions, const Options& options) {
    static constexpr std::array words{
#define STAVE_DEMAND(id, words) std::string_view(words),
#define STAVE_PATTERN(id, word) std::string_view(word),
#include "grammar/keywords.def"
    };
    Nearest nearest(folded);
    for (const std::string_view word : words)
        nearest.meet(word);
    for (std::size_t i = 0; i < std::min(definitions.folded_names.size(), most_searched); ++i)
        nearest.meet(definitions.folded_names[i]);
    for (const std::string_view name : sorted(movements))
        nearest.meet(name);
    if (!nearest.best().empty() || !options.near_movement) return nearest.best();
    return options.near_movement(folded);
}

}  // namespace stave::check
