#include "backends/card/qr.hpp"

#include "backends/codes/square_code.hpp"

namespace stave::card {

namespace {

// The dark modules of one row, joined.
std::vector<Modules::Rectangle> runs_of(const codes::SquareCode& code, int y) {
    std::vector<Modules::Rectangle> runs;
    for (int x = 0; x < code.side; ++x) {
        if (!code.is_dark(x, y)) continue;
        if (!runs.empty() && runs.back().x + runs.back().width == x) {
            ++runs.back().width;
        } else {
            runs.push_back({x, y, 1, 1});
        }
    }
    return runs;
}

// A run continues the rectangle above it that is as wide.
std::vector<Modules::Rectangle> rectangles_of(const codes::SquareCode& code) {
    std::vector<Modules::Rectangle> all;
    for (int y = 0; y < code.side; ++y) {
        for (const Modules::Rectangle& run : runs_of(code, y)) {
            bool joined = false;
            for (Modules::Rectangle& above : all) {
                if (above.y + above.height != y || above.x != run.x || above.width != run.width) {
                    continue;
                }
                ++above.height;
                joined = true;
                break;
            }
            if (!joined) all.push_back(run);
        }
    }
    return all;
}

}  // namespace

std::optional<Modules> qr(std::string_view text, Centipoints module) {
    const std::optional<codes::SquareCode> code = codes::square_code(text);
    if (!code) return std::nullopt;
    return Modules{0, 0, module, code->side, rectangles_of(*code)};
}

}  // namespace stave::card
