// Files that are read part by part, so that they may be larger than the memory.
#pragma once

#include <cstddef>
#include <cstdint>
#include <expected>
#include <optional>
#include <string>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/source/parted_text.hpp"

namespace stave::driver {

// At most `largest` bytes; problems are those of `read_file`. The file is open as long as the
// text is there, and so stays what it was when another is put in its place. Not for several
// threads at once.
[[nodiscard]] std::expected<PartedText, Diagnostic> open_file(const std::string& path,
                                                              std::size_t largest);

// As `read_if_there`.
[[nodiscard]] std::expected<std::optional<PartedText>, Diagnostic> open_if_there(
    const std::string& path, std::size_t largest);

// What stands at a place of an open file: fewer bytes where it ends or cannot be read.
[[nodiscard]] std::string read_at(int descriptor, std::uint64_t offset, std::size_t count);

// Hands the text over in parts; false where it ended before its size.
[[nodiscard]] bool pass_on(const PartedText& text, const PartSink& sink);

}  // namespace stave::driver
