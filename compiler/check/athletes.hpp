// Athletes and squads: the lines of each to a person whose tests, kit and things to avoid are
// known, and to groups of them.
//
// Reports what contradicts itself or names what is not there. Whether a test is old, or a load
// cannot be made, is seen when a session is fitted to the person.
#pragma once

#include <vector>

#include "compiler/check/check.hpp"
#include "compiler/check/lines.hpp"
#include "compiler/check/record_lines.hpp"

namespace stave::check {

// What a file may hold at most.
inline constexpr std::size_t most_athletes = 10'000;
inline constexpr std::size_t most_tests = 1000;

// `program` has its sessions and kits.
[[nodiscard]] std::vector<program::Athlete> check_athletes(const std::vector<RecordLines>& records,
                                                           const program::Program& program,
                                                           const Definitions& definitions,
                                                           const Options& options,
                                                           DiagnosticSink& sink);

// A squad names athletes and other squads; `athletes` are all of the program.
[[nodiscard]] std::vector<program::Squad> check_squads(
    const std::vector<RecordLines>& records, const std::vector<program::Athlete>& athletes,
    DiagnosticSink& sink);

}  // namespace stave::check
