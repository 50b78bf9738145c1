// Slips that the grammar can read and that mean nothing: each function looks for one,
// reports it with its mend and says whether it was there.
#pragma once

#include "compiler/syntax/document.hpp"
#include "compiler/syntax/numbers.hpp"

namespace stave::syntax {

// "60 kg x 5": the load stands before its amount, which is `inner`.
[[nodiscard]] bool is_load_first(const NodeReader& reader, const Series& sets, Span inner);
// "8 x 20 kg", "8 + 20 kg": what stands as a second amount is the load.
[[nodiscard]] bool is_load_behind_times(const NodeReader& reader, const Series& amount,
                                        const Series& inner);
[[nodiscard]] bool is_load_behind_plus(const NodeReader& reader, const Series& amount,
                                       const Series& load);
// "2-3 x 5": `series` and `tail` are the nodes before and from the x on.
[[nodiscard]] bool is_range_of_sets(const NodeReader& reader, std::uint32_t series,
                                    std::uint32_t tail);
// Before the x stands no plain number; "8 reps x 3" is turned round.
void report_sets(const NodeReader& reader, const Series& sets, Span inner);

// "140 bpm": beats have no unit.
[[nodiscard]] bool is_heart_rate(const NodeReader& reader, const Series& beats, Span label);
// "75 % of 1RM"; `of` is the whole of it, `name` what stands behind the word.
[[nodiscard]] bool is_own_max(const NodeReader& reader, Span of, Span name);
// "5 @ 80 % then 3 x 2": the second line that is mended to has the same head.
[[nodiscard]] bool is_amount_behind_load(const NodeReader& reader, const LoadTerm& before,
                                         const LoadTerm& term);

}  // namespace stave::syntax
