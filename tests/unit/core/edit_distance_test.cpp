// The distance of words, held against the whole table of it.
#include "compiler/names/edit_distance.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace stave {
namespace {

// Optimal string alignment, as textbooks have it (from memory).
std::size_t whole_table(const std::string& one, const std::string& other) {
    std::vector<std::vector<std::size_t>> cell(one.size() + 1,
                                               std::vector<std::size_t>(other.size() + 1));
    for (std::size_t i = 0; i <= one.size(); ++i) {
        for (std::size_t j = 0; j <= other.size(); ++j) {
            if (i == 0 || j == 0) {
                cell[i][j] = i + j;
                continue;
            }
            const std::size_t change = one[i - 1] == other[j - 1] ? 0 : 1;
            cell[i][j] =
                std::min({cell[i - 1][j] + 1, cell[i][j - 1] + 1, cell[i - 1][j - 1] + change});
            if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1]) {
                cell[i][j] = std::min(cell[i][j], cell[i - 2][j - 2] + 1);
            }
        }
    }
    return cell[one.size()][other.size()];
}

TEST(EditDistance, is_that_of_the_whole_table_up_to_its_limit) {
    std::vector<std::string> words{""};
    for (std::size_t i = 0; words[i].size() < 5; ++i) {
        words.push_back(words[i] + 'a');
        words.push_back(words[i] + 'b');
    }
    words.insert(words.end(), {"abcabcab", "bacabcab", "abcabcba", "abcabc", "cabcabca"});
    for (const std::string& one : words) {
        for (const std::string& other : words) {
            const std::size_t whole = whole_table(one, other);
            for (std::size_t limit = 0; limit < 6; ++limit) {
                ASSERT_EQ(edit_distance(one, other, limit), std::min(whole, limit + 1))
                    << one << ' ' << other << ' ' << limit;
            }
        }
    }
}

TEST(EditDistance, knows_no_letter_case_and_counts_characters) {
    EXPECT_EQ(edit_distance("Squat", "sQUAT", 2), 0U);
    EXPECT_EQ(edit_distance("\u00E9t\u00E9", "ete", 2), 2U);
}

}  // namespace
}  // namespace stave
