// Keys by which issues of two versions of a file are known to be the same: what they are made of
// is hashed, and they need not be made for that.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "compiler/analysis/analyse.hpp"
#include "compiler/source/wide_hash.hpp"

namespace stave::analysis {

// Of one snapshot, which has no errors.
class IssueKeys {
public:
    explicit IssueKeys(const Snapshot& snapshot);

    // Equal keys are those of issues that are equal, together with all that their movements'
    // definitions say, but for places in the text. `index` is that of `issue`.
    [[nodiscard]] const WideHash& of(std::size_t index) const { return issues_[index]; }
    // The same of what is fitted to the athlete; the name of a blank is not in it.
    [[nodiscard]] WideHash of(std::size_t index, std::uint32_t athlete_id) const;
    // The same, together with the movements that its problems may speak of: all that there are.
    [[nodiscard]] WideHash with_all_movements(std::size_t index, std::uint32_t athlete_id) const;

private:
    std::vector<WideHash> issues_;
    std::vector<WideHash> athletes_;
    WideHash movements_;
};

}  // namespace stave::analysis
