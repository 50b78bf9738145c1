#include "backends/codes/square_code.hpp"

#include <qrencode.h>

#include <cerrno>
#include <memory>
#include <new>
#include <string>

namespace stave::codes {

namespace {

struct CodeFree {
    void operator()(QRcode* code) const { QRcode_free(code); }
};
using CodeHandle = std::unique_ptr<QRcode, CodeFree>;

}  // namespace

std::optional<SquareCode> square_code(std::string_view text) {
    if (text.empty() || text.find('\0') != std::string_view::npos) return std::nullopt;
    constexpr int any_version = 0;
    constexpr int keep_case = 1;
    const CodeHandle code{QRcode_encodeString(std::string(text).c_str(), any_version, QR_ECLEVEL_M,
                                              QR_MODE_8, keep_case)};
    if (!code) {
        if (errno == ENOMEM) throw std::bad_alloc();
        return std::nullopt;
    }
    SquareCode result{code->width, {}};
    const int count = code->width * code->width;
    result.modules.reserve(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i)
        result.modules.push_back((code->data[i] & 1U) != 0);
    return result;
}

}  // namespace stave::codes
