#include "backends/codes/terminal.hpp"

#include <string_view>

namespace stave::codes {

namespace {

constexpr std::string_view black_on_white = "\x1b[38;5;16;48;5;231m";
constexpr std::string_view usual = "\x1b[0m";

std::string_view block(bool upper_is_dark, bool lower_is_dark) {
    if (upper_is_dark) return lower_is_dark ? "█" : "▀";
    return lower_is_dark ? "▄" : " ";
}

}  // namespace

std::string terminal_lines(const SquareCode& code) {
    std::string text;
    const int end = code.side + quiet_modules;
    for (int y = -quiet_modules; y < end; y += 2) {
        text += black_on_white;
        for (int x = -quiet_modules; x < end; ++x)
            text += block(code.is_dark(x, y), code.is_dark(x, y + 1));
        text += usual;
        text += '\n';
    }
    return text;
}

}  // namespace stave::codes
