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
[[nodiscard]] std::optional<Work> lower_work(const NodeReader& reader, std::uint32_t node);
// False after an error.
[[nodiscard]] bool lower_load(const NodeReader& reader, std::uint32_t node, Dose& dose);
// A `load_term` node, or the node of an effort that stands as a detail.
[[nodiscard]] std::optional<LoadTerm> lower_load_term(const NodeReader& reader, std::uint32_t node);
// So many reps left in reserve.
[[nodiscard]] std::optional<LoadTerm> reserve_of(const NodeReader& reader, Series amount,
                                                 Span span);
[[nodiscard]] std::optional<Side> lower_side(const NodeReader& reader, std::uint32_t node);
// A node of a dose behind a comma; false after an error.
[[nodiscard]] bool lower_detail(const NodeReader& reader, std::uint32_t node,
                                std::vector<Detail>& details);
// Gives the rest before it the time it usually takes; null where there is none.
[[nodiscard]] bool add_about(const NodeReader& reader, const About& about, Rest* rest);
// Joins every `about` to the rest before it.
[[nodiscard]] bool pair_about(const NodeReader& reader, std::vector<Detail>& details);
// A time of one value: a hold, a limit.
[[nodiscard]] std::optional<Value> lower_time(const NodeReader& reader, std::uint32_t node);

[[nodiscard]] std::optional<Format> lower_format(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<Day> lower_date(const NodeReader& reader, Span span);
// Since midnight.
[[nodiscard]] std::optional<std::chrono::minutes> lower_clock(const NodeReader& reader, Span span);
[[nodiscard]] std::optional<Days> lower_days(const NodeReader& reader, NodeRange nodes,
                                             grammar::LineKind kind);
[[nodiscard]] std::optional<Slot> lower_slot(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<Did> lower_did(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<When> lower_when(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<Kit> lower_kit(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<CountedIn> lower_counted_in(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<SpeedLine> lower_speed(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] Names lower_names(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<Measure> lower_measure(const NodeReader& reader, NodeRange nodes,
                                                   grammar::LineKind kind);
// Of `pages` or `columns`: 1 or 2, without a unit.
[[nodiscard]] std::optional<Measure> lower_page_count(const NodeReader& reader, NodeRange nodes,
                                                      grammar::LineKind kind);
// An address of the web as RFC 3986 writes it, at most `longest_link` signs.
[[nodiscard]] std::optional<Word> lower_link(const NodeReader& reader, Span body);
[[nodiscard]] std::optional<Lighter> lower_lighter(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<Waves> lower_waves(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] std::optional<Growth> lower_growth(const NodeReader& reader, NodeRange nodes);
[[nodiscard]] PatternLine lower_patterns(const NodeReader& reader, NodeRange nodes);

}  // namespace stave::syntax
