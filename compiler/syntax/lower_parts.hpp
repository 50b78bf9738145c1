// The bodies of lines, one function each. Every function takes the index of the
// first node of the body and the index behind its last, and gives nothing after
// an error has been reported.
#pragma once

#include <optional>

#include "compiler/syntax/numbers.hpp"

namespace stave::syntax {

// Nodes [first, after) of a body.
struct NodeRange {
    std::uint32_t first = 0;
    std::uint32_t after = 0;
};

[[nodiscard]] std::optional<Dose> lower_dose(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<Rest> lower_rest(const NodeReader& reader, NodeRange nodes, Span span);
[[nodiscard]] std::optional<Series> lower_series(const NodeReader& reader, std::uint32_t node);
[[nodiscard]] std::optional<Side> lower_side(const NodeReader& reader, std::uint32_t node);
// A node of a dose behind a comma; false after an error.
[[nodiscard]] bool lower_detail(const NodeReader& reader, std::uint32_t node,
                                std::vector<Detail>& details);
// A time of one value: a hold, a limit.
[[nodiscard]] std::optional<Value> lower_time(const NodeReader& reader, std::uint32_t node);

[[nodiscard]] std::optional<Format> lower_format(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<When> lower_when(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<Kit> lower_kit(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<CountedIn> lower_counted_in(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<SpeedLine> lower_speed(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] PatternLine lower_patterns(const NodeReader& reader, NodeRange nodes);

}  // namespace stave::syntax
