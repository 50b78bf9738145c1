#include "backends/card/numbers.hpp"

namespace stave::card {

void append_hundredths(std::string& out, std::int64_t hundredths) {
    if (hundredths < 0) out += '-';
    const std::int64_t size = hundredths < 0 ? -hundredths : hundredths;
    out += std::to_string(size / 100);
    const auto rest = static_cast<int>(size % 100);
    if (rest == 0) return;
    out += '.';
    out += static_cast<char>('0' + rest / 10);
    if (rest % 10 != 0) out += static_cast<char>('0' + rest % 10);
}

}  // namespace stave::card
