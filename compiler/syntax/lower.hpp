// Lowering: parse tree to typed lines. Reads numbers, gives units to the values
// of a list, and refuses what one line alone shows to be wrong: unclear numbers,
// rising pairs, mixed units, wrong dimensions of details.
//
// A line with an error keeps its kind and loses its body; the others are whole.
#pragma once

#include <string>

#include <cstdint>
#include <span>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/parse/parse_tree.hpp"
#include "compiler/source/source_file.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::syntax {

// `source` must outlive the document.
// All lines of the tree.
[[nodiscard]] Document lower(const parse::ParseTree& tree, const SourceFile& source,
                             DiagnosticSink& sink);

// The lines of the tree with these indices, in this order.
[[nodiscard]] Document lower(const parse::ParseTree& tree, std::span<const std::uint32_t> order,
                             const SourceFile& source, DiagnosticSink& sink);

// One line for each line of the document, for golden tests.
[[nodiscard]] std::string dump(const Document& document);

}  // namespace stave::syntax
