#include "backends/card/qr.hpp"

#include <qrencode.h>

#include <cerrno>
#include <memory>
#include <new>
#include <string>

namespace stave::card {

namespace {

struct CodeFree {
    void operator()(QRcode* code) const { QRcode_free(code); }
};
using CodeHandle = std::unique_ptr<QRcode, CodeFree>;

bool is_dark(const QRcode& code, int x, int y) {
    return (code.data[y * code.width + x] & 1U) != 0;
}

// The dark modules of one row, joined.
std::vector<Modules::Rectangle> runs_of(const QRcode& code, int y) {
    std::vector<Modules::Rectangle> runs;
    for (int x = 0; x < code.width; ++x) {
        if (!is_dark(code, x, y)) continue;
        if (!runs.empty() && runs.back().x + runs.back().width == x) {
            ++runs.back().width;
        } else {
            runs.push_back({x, y, 1, 1});
        }
    }
    return runs;
}

// A run continues the rectangle above it that is as wide.
std::vector<Modules::Rectangle> rectangles_of(const QRcode& code) {
    std::vector<Modules::Rectangle> all;
    for (int y = 0; y < code.width; ++y) {
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
    if (text.empty() || text.find('\0') != std::string_view::npos) return std::nullopt;
    constexpr int any_version = 0;
    constexpr int keep_case = 1;
    const CodeHandle code{QRcode_encodeString(std::string(text).c_str(), any_version, QR_ECLEVEL_M,
                                              QR_MODE_8, keep_case)};
    if (!code) {
        if (errno == ENOMEM) throw std::bad_alloc();
        return std::nullopt;
    }
    return Modules{0, 0, module, code->width, rectangles_of(*code)};
}

}  // namespace stave::card
