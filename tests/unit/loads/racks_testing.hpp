// Racks of kilograms and pounds for tests, and what a choice from one weighs.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "compiler/loads/rack.hpp"

namespace stave::testing {

// NIST SP 811, appendix B: 1 lb = 0.45359237 kg.
inline const Ratio pound{45'359'237, 100'000'000};

[[nodiscard]] inline Ratio hundredths(std::int64_t count) {
    return {count, 100};
}

// So many pairs, or things, of each of the weights.
[[nodiscard]] inline std::vector<loads::Weight> each(const std::vector<Ratio>& kilograms,
                                                     std::int64_t count = 1) {
    std::vector<loads::Weight> weights;
    for (const Ratio one : kilograms)
        weights.push_back({one, count});
    return weights;
}

// What hangs on one side.
[[nodiscard]] inline Ratio side_of(const std::vector<loads::Weight>& pairs,
                                   const std::vector<std::size_t>& ids) {
    Ratio side;
    for (const std::size_t id : ids)
        side += pairs.at(id).kilograms;
    return side;
}

[[nodiscard]] inline Ratio total_of(Ratio bar, const std::vector<loads::Weight>& pairs,
                                    const std::vector<std::size_t>& ids) {
    return bar + side_of(pairs, ids) * Ratio(2);
}

// "25+15+1.25"; "" for a bar alone.
[[nodiscard]] inline std::string plates_of(const std::vector<loads::Weight>& pairs,
                                           const std::vector<std::size_t>& ids) {
    std::string text;
    for (const std::size_t id : ids)
        text += (text.empty() ? "" : "+") + to_decimal(pairs.at(id).kilograms);
    return text;
}

}  // namespace stave::testing
