#include "compiler/names/edit_distance.hpp"

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

namespace stave {

static char to_lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

std::size_t edit_distance(std::string_view left, std::string_view right, std::size_t limit) {
    const std::size_t gap =
        left.size() > right.size() ? left.size() - right.size() : right.size() - left.size();
    if (gap > limit) return limit + 1;
    // Three rows of the table of Damerau and Levenshtein, with swaps of neighbours.
    std::vector<std::size_t> before_last(right.size() + 1);
    std::vector<std::size_t> last(right.size() + 1);
    std::vector<std::size_t> row(right.size() + 1);
    std::iota(last.begin(), last.end(), 0U);
    for (std::size_t i = 1; i <= left.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= right.size(); ++j) {
            const bool same = to_lower(left[i - 1]) == to_lower(right[j - 1]);
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0U : 1U)});
            const bool swapped = i > 1 && j > 1 &&
                                 to_lower(left[i - 1]) == to_lower(right[j - 2]) &&
                                 to_lower(left[i - 2]) == to_lower(right[j - 1]);
            if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
        std::swap(before_last, last);
        std::swap(last, row);
    }
    return last[right.size()];
}

}  // namespace stave
