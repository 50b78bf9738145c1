// From a set to the greatest load for one repetition (1RM), and back.
//
// Seven published equations for a load w lifted r times to failure; their factors 1RM / w:
//   Epley      1 + r/30                          Epley B (1985) Poundage Chart
//   Brzycki    36 / (37 - r)                     Brzycki M (1993) JOPERD 64(1):88-90
//   Lombardi   r^0.10                            Lombardi VP (1989) Beginning Weight Training
//   Lander     100 / (101.3 - 2.67123 r)         Lander J (1985) NSCA Journal 6(6):60-61
//   Mayhew     100 / (52.2 + 41.9 e^(-0.055 r))  Mayhew et al. (1992) JASSR 6(4):200-206
//   O'Conner   1 + 0.025 r                       O'Conner et al. (1989) Weight Training Today
//   Wathan     100 / (48.8 + 53.8 e^(-0.075 r))  Wathan D (1994) in Baechle (ed.), Essentials
// The papers are cited from memory. A single is the max itself, whichever equation is asked.
// Above 10 repetitions all of them are outside the range in which they were held against
// measurements (Mayhew et al. 1995, J Sports Med Phys Fitness 35:108-113).
#pragma once

#include <array>
#include <cstdint>
#include <optional>

#include "compiler/quantity/ratio.hpp"

namespace stave::loads {

enum class Equation : std::uint8_t { epley, brzycki, lombardi, lander, mayhew, oconner, wathan };

inline constexpr std::array equations{Equation::epley,  Equation::brzycki, Equation::lombardi,
                                      Equation::lander, Equation::mayhew,  Equation::oconner,
                                      Equation::wathan};

// At 37 Brzycki's equation divides by nothing, and Lander's soon after.
inline constexpr std::int64_t most_reps = 36;
inline constexpr std::int64_t most_valid_reps = 10;

// 1RM / load for 1 to `most_reps` repetitions: exact, but for Lombardi, Mayhew and Wathan,
// whose values are rounded to 1e-9. Nothing outside these repetitions.
[[nodiscard]] std::optional<Ratio> max_factor(Equation equation, std::int64_t reps);

// The least, the middle and the greatest of the seven.
struct Spread {
    Ratio least;
    Ratio middle;
    Ratio greatest;
};
[[nodiscard]] std::optional<Spread> max_factors(std::int64_t reps);

// The share of the 1RM that a training load chart gives for so many repetitions: the NSCA
// Training Load Chart, 1 to 10 and 12. Its 11 lies half way between, by our own choice. Nothing
// above 12, where the chart and the book it belongs to disagree.
[[nodiscard]] std::optional<Ratio> chart_share(std::int64_t reps);

// A row that is printed in that chart.
struct ChartRow {
    std::int64_t reps = 0;
    Ratio share;
};

// The row of the most repetitions that can be done with `share` of the 1RM: the one next
// above where none is for just that. A single for whatever is above it; nothing below the
// last row.
[[nodiscard]] std::optional<ChartRow> chart_row(Ratio share);

}  // namespace stave::loads
