// A square code (backends/codes) as the modules of a page.
//
// Around it belongs a quiet zone of `codes::quiet_modules`, and a module below half a
// millimetre is hard to read from paper (`least_module`; common practice, no source).
#pragma once

#include <optional>
#include <string_view>

#include "backends/card/page.hpp"

namespace stave::card {

inline constexpr Centipoints least_module = points(1.42);

// The code with its first module at 0, 0; its size on the page is `side` modules.
// Nothing where there is no code of the text.
[[nodiscard]] std::optional<Modules> qr(std::string_view text, Centipoints module);

}  // namespace stave::card
