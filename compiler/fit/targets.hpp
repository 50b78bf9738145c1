// One load as it is written to the weight that it asks for, before anybody looks at what is
// there.
#pragma once

#include <optional>

#include "compiler/fit/fit_loads.hpp"

namespace stave::fit {

struct Target {
    Basis basis = Basis::written;
    // Masses > 0 of one implement; equal unless a range was written.
    Quantity low;
    Quantity high;
    std::int64_t implements = 1;
    std::optional<Max> max;
    std::optional<program::Estimate> shares;
    std::optional<Ratio> reps;
    std::optional<Ratio> share;
};

// Nothing for what is no weight, for an effort without a test, and after an error has been
// reported: a share of a max without a test, of a body weight that is not known. `rises`: the
// term is one load for all sets, and the repetitions of each say how it changes.
[[nodiscard]] std::optional<Target> find_target(const LoadContext& context,
                                                const program::Item& item,
                                                const program::LoadTerm& term, std::size_t set,
                                                bool rises);

}  // namespace stave::fit
