// A text as a square code that telephones read (QR Code, ISO/IEC 18004), by
// libqrencode.
//
// Error correction M: a seventh of the code may be dirty or torn. Around it belongs a
// quiet zone of four modules, and a module below half a millimetre is hard to read
// from paper (`least_module`; ISO/IEC 18004 says the first, common practice the second).
#pragma once

#include <optional>
#include <string_view>

#include "backends/card/page.hpp"

namespace stave::card {

inline constexpr int quiet_modules = 4;
inline constexpr Centipoints least_module = points(1.42);

// The code with its first module at 0, 0; its size on the page is `side` modules.
// Nothing where the text is empty, holds a zero byte or is too long for any code.
[[nodiscard]] std::optional<Modules> qr(std::string_view text, Centipoints module);

}  // namespace stave::card
