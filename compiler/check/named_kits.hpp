// Kit: things of kit lines, and kits with a name, which fill in the things they hold.
#pragma once

#include <vector>

#include "compiler/check/record_lines.hpp"
#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::check {

// The things of a line in order, as they are written.
[[nodiscard]] std::vector<program::KitThing> to_kit(const syntax::Kit& kit);

// The kits of the file, each name once. A kit may name those above it.
[[nodiscard]] std::vector<program::NamedKit> check_kits(const std::vector<RecordLines>& records,
                                                        DiagnosticSink& sink);

// The things with those of a named kit in the place of its name.
[[nodiscard]] std::vector<program::KitThing> fill_in(const std::vector<program::KitThing>& things,
                                                     const std::vector<program::NamedKit>& kits);

}  // namespace stave::check
