// A text as a square code that telephones read (QR Code, ISO/IEC 18004), by libqrencode: its
// modules, without the quiet zone that belongs around them.
//
// Error correction M: a seventh of the code may be dirty or torn.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace stave::codes {

// As wide as this on each side (ISO/IEC 18004).
inline constexpr int quiet_modules = 4;

struct SquareCode {
    int side = 0;
    // Row by row, `side` each.
    std::vector<bool> modules;

    // Light outside the code.
    [[nodiscard]] bool is_dark(int x, int y) const {
        if (x < 0 || y < 0 || x >= side || y >= side) return false;
        return modules[static_cast<std::size_t>(y) * static_cast<std::size_t>(side) +
                       static_cast<std::size_t>(x)];
    }
};

// Nothing where the text is empty, holds a zero byte or is too long for any code.
[[nodiscard]] std::optional<SquareCode> square_code(std::string_view text);

}  // namespace stave::codes
