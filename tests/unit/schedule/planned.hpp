// A file with a plan through the whole front of the compiler.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <utility>

#include "compiler/analysis/issues.hpp"
#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/diagnostics/render.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::testing {

[[nodiscard]] inline analysis::Snapshot planned(std::string text) {
    static zones::ZoneLoader zones;
    return analysis::analyse("plan.stave", std::move(text), {zones.finder(), {}});
}

// The names of its problems, in order.
[[nodiscard]] inline std::string problems(const analysis::Snapshot& snapshot) {
    std::string names;
    for (const Diagnostic& one : snapshot.sink.sorted())
        names += (names.empty() ? "" : " ") + std::string(catalogue_entry(one.code).name);
    return names;
}

// The session of the day with this index.
[[nodiscard]] inline program::Session held(const analysis::Snapshot& snapshot, std::size_t day) {
    return analysis::issue(snapshot, snapshot.by_themselves.size() + day).session();
}

[[nodiscard]] inline std::string date_of(const schedule::Occurrence& day) {
    const auto two = [](unsigned number) {
        return (number < 10 ? "0" : "") + std::to_string(number);
    };
    return std::to_string(static_cast<int>(day.date.year())) + '-' +
           two(static_cast<unsigned>(day.date.month())) + '-' +
           two(static_cast<unsigned>(day.date.day()));
}

}  // namespace stave::testing
