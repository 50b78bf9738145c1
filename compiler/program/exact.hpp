// Values of the program to hashes of all that they say: two have the same hash where they differ
// in nothing but where in the text they stand.
//
// A movement that is meant by its index is added as what it is as well, so values can be compared
// that come from two versions of a file.
#pragma once

#include <vector>

#include "compiler/program/program.hpp"
#include "compiler/source/wide_hash.hpp"

namespace stave::program {

class Exact {
public:
    // The movements of the program that the values are of.
    explicit Exact(const std::vector<MovementDefinition>& movements);

    [[nodiscard]] WideHash of(const Session& session) const;
    [[nodiscard]] WideHash of(const Athlete& athlete) const;
    // Without its days, and what it changes about single ones: see `schedule::Occurrence`.
    [[nodiscard]] WideHash of(const Plan& plan) const;
    // Without the sessions that take turns at it.
    [[nodiscard]] WideHash of(const PlanSlot& slot) const;
    // In their order.
    [[nodiscard]] WideHash of_all_movements() const;

private:
    std::vector<WideHash> movements_;
    // What all movements are called, in their order.
    WideHash names_;
};

}  // namespace stave::program
