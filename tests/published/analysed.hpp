// One session through the whole front of the compiler, for tests of its numbers.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <utility>

#include "compiler/analysis/analyse.hpp"
#include "compiler/diagnostics/render.hpp"

namespace stave::testing {

// The snapshot of a text that must hold no error, and no zone.
[[nodiscard]] inline analysis::Snapshot analysed(std::string text) {
    analysis::Snapshot snapshot = analysis::analyse("test", std::move(text), {});
    const auto problems = snapshot.sink.sorted();
    EXPECT_FALSE(snapshot.sink.has_errors())
        << snapshot.source->text()
        << render_line({snapshot.source.get(), problems, snapshot.sink.dropped()});
    return snapshot;
}

// The timeline of its only session.
[[nodiscard]] inline timeline::Timeline timed(std::string text) {
    analysis::Snapshot snapshot = analysed(std::move(text));
    if (snapshot.timelines.size() != 1) {
        ADD_FAILURE() << snapshot.timelines.size() << " sessions";
        return {};
    }
    return std::move(snapshot.timelines.front());
}

// What its only movement adds up to.
[[nodiscard]] inline timeline::MovementTotal only_total(const timeline::Timeline& timeline) {
    if (timeline.movements.size() != 1) {
        ADD_FAILURE() << timeline.movements.size() << " movements";
        return {};
    }
    return timeline.movements.front();
}

}  // namespace stave::testing
