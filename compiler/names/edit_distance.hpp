// How far two words are apart.
#pragma once

#include <cstddef>
#include <string_view>

namespace stave {

// Characters to be added, left out, changed or swapped with a neighbour to make one of
// the other, without ASCII letter case; `limit` + 1 where it is more than `limit`.
// Takes time by the length and the limit, not by the square of the length.
[[nodiscard]] std::size_t edit_distance(std::string_view one, std::string_view other,
                                        std::size_t limit);

}  // namespace stave
