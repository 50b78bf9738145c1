// The disk: whole files in, whole files out.
//
// A file is written beside its place, flushed to the disk and renamed, so that
// its place holds the old file or the new one at any moment. Problems come back
// as diagnostics without a place in a source.
#pragma once

#include <expected>
#include <istream>
#include <optional>
#include <string>
#include <string_view>

#include "compiler/diagnostics/diagnostic.hpp"

namespace stave::driver {

// At most SourceFile::largest bytes; `shown` is the path as people know it.
[[nodiscard]] std::expected<std::string, Diagnostic> read_file(const std::string& path);
[[nodiscard]] std::expected<std::string, Diagnostic> read_stream(std::istream& in,
                                                                 const std::string& shown);

// Nothing where there is no such file; a diagnostic where it cannot be read.
[[nodiscard]] std::expected<std::optional<std::string>, Diagnostic> read_if_there(
    const std::string& path);

[[nodiscard]] std::optional<Diagnostic> make_folder(const std::string& path);
[[nodiscard]] std::optional<Diagnostic> write_file(const std::string& path, std::string_view bytes);

}  // namespace stave::driver
