#include "compiler/names/edit_distance.hpp"

#include <algorithm>
#include <cstdint>
#include <numeric>
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

}  // namespace

std::size_t edit_distance(std::string_view one, std::string_view other, std::size_t limit) {
    if (gap(character_count(one), character_count(other)) > limit) return limit + 1;
    const std::vector<std::int32_t> left = lower_characters(one);
    const std::vector<std::int32_t> right = lower_characters(other);
    // Three rows of the table of Damerau and Levenshtein, with swaps of neighbours.
    std::vector<std::size_t> before_last(right.size() + 1);
    std::vector<std::size_t> last(right.size() + 1);
    std::vector<std::size_t> row(right.size() + 1);
    std::iota(last.begin(), last.end(), 0U);
    for (std::size_t i = 1; i <= left.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= right.size(); ++j) {
            const bool same = left[i - 1] == right[j - 1];
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0U : 1U)});
            const bool swapped =
                i > 1 && j > 1 && left[i - 1] == right[j - 2] && left[i - 2] == right[j - 1];
            if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
        std::swap(before_last, last);
        std::swap(last, row);
    }
    return last[right.size()];
}

}  // namespace stave
