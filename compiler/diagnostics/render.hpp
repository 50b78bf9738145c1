// Diagnostics as text: framed for people, a line each for editors, JSON for
// programs. Positions are converted here and nowhere else.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/source/source_file.hpp"

namespace stave {

// What is said of one file. `source` is null for problems of files that could
// not be read or written; their spans mean nothing.
struct FileDiagnostics {
    const SourceFile* source = nullptr;
    std::span<const Diagnostic> diagnostics;
    // Reported beyond the limit of the sink.
    std::size_t dropped = 0;
};

// What is said of the problems beyond the limit; nothing where there are none. It has no
// place.
[[nodiscard]] std::optional<Diagnostic> of_dropped(const FileDiagnostics& file);

// Severity, code, what, the line with the place marked, why and mend. Colour adds
// nothing that the words do not say.
[[nodiscard]] std::string render_text(const FileDiagnostics& file, bool colour);

// `path:line:column: severity: what [code]`, columns in characters from 1.
[[nodiscard]] std::string render_line(const FileDiagnostics& file);

// One array over all files: code, severity, file, begin and end (line and column
// from 1, byte offset from 0), what, why, mend, fixes with their edits, related. What was
// filled in from a routine's line is all of that line, without edits.
[[nodiscard]] std::string render_json(std::span<const FileDiagnostics> files);

}  // namespace stave
