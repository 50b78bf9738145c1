// Slips that coaches make with signs, numbers and words, each with its mend.
//
// Every function looks at the place where the grammar stopped and answers with
// a diagnostic if its slip was made there.
#pragma once

#include <optional>

#include "compiler/parse/scene.hpp"

namespace stave::parse {

// "15, 12, 9" or "2,5": numbers with commas between them.
[[nodiscard]] std::optional<Diagnostic> find_comma_between_numbers(const Scene& scene);
// A sign that stands where nothing may follow: / " # ; . @ + ( ) !
[[nodiscard]] std::optional<Diagnostic> find_stray_sign(const Scene& scene);
// "1:02:30".
[[nodiscard]] std::optional<Diagnostic> find_clock_with_hours(const Scene& scene);
// "1 200 m", "5 75 kg".
[[nodiscard]] std::optional<Diagnostic> find_second_number(const Scene& scene);
// ".5" or "-20" where a number is due.
[[nodiscard]] std::optional<Diagnostic> find_unclear_number(const Scene& scene);
// A word that stands where the line should end or go on differently.
[[nodiscard]] std::optional<Diagnostic> find_stray_word(const Scene& scene);

}  // namespace stave::parse
