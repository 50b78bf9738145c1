// Parsing: text to lines and nodes, line by line.
//
// Every line is its own recovery point: a line that breaks the grammar gets one
// diagnostic, is marked as broken, and the next one is read as if nothing had
// happened. A text that is no UTF-8, or holds control characters, gives no
// lines at all and one diagnostic.
#pragma once

#include "compiler/diagnostics/sink.hpp"
#include "compiler/parse/parse_tree.hpp"
#include "compiler/source/source_file.hpp"

namespace stave::parse {

// The file itself, the first part of the text.
[[nodiscard]] ParseTree parse(const SourceFile& source, DiagnosticSink& sink);

// Adds the lines of another part to the tree.
void parse_part(const SourceFile& source, const SourcePart& part, ParseTree& tree,
                DiagnosticSink& sink);

// One line for each line of the text and one for each node, for golden tests.
[[nodiscard]] std::string dump(const ParseTree& tree, const SourceFile& source);

}  // namespace stave::parse
