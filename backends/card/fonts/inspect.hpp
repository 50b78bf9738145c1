// One font file looked at: what it is, and whether cards can be made with it.
#pragma once

#include <cstdint>
#include <expected>
#include <string>

#include "backends/card/family.hpp"
#include "backends/card/fonts/harfbuzz.hpp"

namespace stave::card {

struct Inspected {
    FontHandle font;
    // Without words for weights and widths: "Sail Sans" of "Sail Sans Condensed Bold".
    std::string family;
    std::string name;
    // 400 is regular, 700 bold.
    int weight = 0;
    // Per cent of the usual width.
    int width = 0;
    bool is_slanted = false;
    // Latin letters and figures, not signs alone.
    bool has_letters = false;
};

// The font's bytes are those of the file, which must outlive it.
[[nodiscard]] std::expected<Inspected, Diagnostic> inspect(const FontFile& file);

// Whether it may be embedded, and can be cut: for files that are about to be used.
[[nodiscard]] std::expected<void, Diagnostic> may_be_embedded(const FontFile& file,
                                                              const Inspected& inspected);

[[nodiscard]] inline std::span<const std::byte> bytes_of(const FontFile& file) {
    return std::as_bytes(std::span(file.bytes));
}

}  // namespace stave::card
