// The papers a card is designed for: one layout each, none a scaled copy of
// another. Sizes by ISO 216 (A3 to A6: 297 x 420, 210 x 297, 148 x 210 and
// 105 x 148 mm) and ANSI/ASME Y14.1 (Letter: 8.5 x 11 in).
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

#include "backends/card/page.hpp"

namespace stave::card {

// A3 hangs on a wall and is read from afar: nothing on it is to be written on.
// A6 goes into a pocket.
enum class Paper : std::uint8_t { a4, letter, a5, a6, a3 };

inline constexpr std::array papers{Paper::a4, Paper::letter, Paper::a5, Paper::a6, Paper::a3};

// "a4", "letter": what is typed; "A4", "Letter": what is said.
[[nodiscard]] std::string_view name_of(Paper paper);
[[nodiscard]] std::string_view spoken_name(Paper paper);
// Nothing where no paper has the name.
[[nodiscard]] std::optional<Paper> paper_named(std::string_view name);

struct PaperSize {
    Centipoints width = 0;
    Centipoints height = 0;
};
[[nodiscard]] PaperSize size_of(Paper paper);

}  // namespace stave::card
