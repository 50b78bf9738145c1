// Volume load: sets x repetitions x load.
//
// The product is that of table 1, "training variables and monitoring equations", of a review
// in BMJ Military Health. Repetitions alone count: carries, distances and times under a load
// add none, and neither does body weight; what hangs from it does. Bands, shares and efforts
// that were not worked out as weights add none. Of a range the upper end counts.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "compiler/program/dose.hpp"
#include "compiler/quantity/quantity.hpp"

namespace stave::timeline {

// An amount of one set on neither side, the left and the right.
struct Sided {
    Ratio both;
    Ratio left;
    Ratio right;

    [[nodiscard]] Ratio all() const { return both + left + right; }
};

struct VolumeLoad {
    // Repetitions times load in each unit that loads are written in, in the order of their
    // first use: pounds stay pounds.
    std::vector<Quantity> as_written;
    // The same in kilograms.
    Sided kilograms;
    // Those that were done with such a load.
    Ratio reps;
};

// Adds repetitions under a load; false where the load has no weight to count. Products are
// kept to 1e-8, which holds every load in kg or lb with two decimals exactly; beyond a
// thousand tonnes in one set or a million in all, where no training is, whole ones count, so
// that no sum leaves 64 bits.
bool add_set(const program::Load& load, const Sided& reps, VolumeLoad& sum);

void add(const VolumeLoad& more, VolumeLoad& sum);

// Kilograms for each loaded repetition, to a millionth; nothing where there is none.
[[nodiscard]] std::optional<Ratio> mean_load(const VolumeLoad& volume);

// Kilograms in each minute, to a millionth; there is one minute at least.
[[nodiscard]] Ratio density(const VolumeLoad& volume, std::int64_t minutes);

}  // namespace stave::timeline
