#include "compiler/names/edit_distance.hpp"

#include <algorithm>
#include <cstdint>
#include <utility>
#include <vector>

#include "compiler/source/utf8.hpp"

namespace stave {

namespace {

// The characters without ASCII letter case.
std::vector<std::int32_t> lower_characters(std::string_view text) {
    std::vector<std::int32_t> characters;
    characters.reserve(text.size());
    for (std::size_t i = 0; i < text.size();) {
        const Character next = character_at(text, i);
        const bool is_capital = next.code_point >= 'A' && next.code_point <= 'Z';
        characters.push_back(next.code_point + (is_capital ? 'a' - 'A' : 0));
        i += std::max<std::size_t>(1, next.size);
    }
    return characters;
}

std::size_t gap(std::size_t left, std::size_t right) {
    return left > right ? left - right : right - left;
}

// The table of Damerau and Levenshtein, with swaps of neighbours, row by row and only where
// a distance within the limit can be: at most that far from the diagonal.
class Band {
public:
    Band(std::vector<std::int32_t> left, std::vector<std::int32_t> right, std::size_t limit)
        : left_(std::move(left)),
          right_(std::move(right)),
          limit_(limit),
          before_last_(right_.size() + 1, beyond()),
          last_(right_.size() + 1, beyond()),
          row_(right_.size() + 1, beyond()) {
        for (std::size_t j = 0; j <= std::min(limit, right_.size()); ++j)
            last_[j] = j;
    }

    std::size_t distance() {
        for (std::size_t i = 1; i <= left_.size(); ++i) {
            if (fill_row(i) > limit_) return beyond();
            std::swap(before_last_, last_);
            std::swap(last_, row_);
        }
        return std::min(last_[right_.size()], beyond());
    }

private:
    [[nodiscard]] std::size_t beyond() const { return limit_ + 1; }

    // Gives the least distance in it.
    std::size_t fill_row(std::size_t i) {
        const std::size_t first = i > limit_ ? i - limit_ : 0;
        const std::size_t last = std::min(i + limit_, right_.size());
        // The places beside the band are read with the next rows.
        if (first > 0) row_[first - 1] = beyond();
        if (last < right_.size()) row_[last + 1] = beyond();
        std::size_t least = beyond();
        for (std::size_t j = first; j <= last; ++j) {
            row_[j] = j == 0 ? i : step(i, j);
            least = std::min(least, row_[j]);
        }
        return least;
    }

    [[nodiscard]] std::size_t step(std::size_t i, std::size_t j) const {
        const bool same = left_[i - 1] == right_[j - 1];
        const std::size_t plain =
            std::min({last_[j] + 1, row_[j - 1] + 1, last_[j - 1] + (same ? 0U : 1U)});
        const bool swapped =
            i > 1 && j > 1 && left_[i - 1] == right_[j - 2] && left_[i - 2] == right_[j - 1];
        return swapped ? std::min(plain, before_last_[j - 2] + 1) : plain;
    }

    std::vector<std::int32_t> left_;
    std::vector<std::int32_t> right_;
    std::size_t limit_;
    std::vector<std::size_t> before_last_;
    std::vector<std::size_t> last_;
    std::vector<std::size_t> row_;
};

}  // namespace

std::size_t edit_distance(std::string_view one, std::string_view other, std::size_t limit) {
    if (gap(character_count(one), character_count(other)) > limit) return limit + 1;
    return Band(lower_characters(one), lower_characters(other), limit).distance();
}

}  // namespace stave
