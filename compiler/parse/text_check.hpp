// Proves that a text can be read at all: UTF-8, no control characters, no marks
// that turn the direction of writing, and lines of a length people write.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/source/source_file.hpp"

namespace stave::parse {

// What the parser reads at most.
inline constexpr std::uint32_t longest_line = 2000;
inline constexpr std::uint32_t most_lines = 2'000'000;

// False, with one diagnostic at the first place that stops it, when the part
// cannot be read. Long lines are not looked for here.
[[nodiscard]] bool is_readable(const SourceFile& source, const SourcePart& part,
                               DiagnosticSink& sink);

}  // namespace stave::parse
