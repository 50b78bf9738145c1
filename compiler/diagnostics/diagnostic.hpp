// One problem found in a source: which, where, with what details and mends.
// Its words stand in the catalogue and nowhere else.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "compiler/source/span.hpp"

namespace stave {

enum class Severity : std::uint8_t { error, warning, note };

// Every code there is; see catalogue.def.
enum class Code : std::uint16_t {
#define STAVE_DIAGNOSTIC(id, name, severity, what, why, mend) id,
#include "compiler/diagnostics/catalogue.def"
};

// Replaces the bytes of `span` by `text`.
struct Edit {
    Span span;
    std::string text;

    friend bool operator==(const Edit&, const Edit&) = default;
};

// One way to mend the problem; edits do not overlap.
struct Fix {
    std::string label;
    std::vector<Edit> edits;
};

// Another place that matters: the first of two definitions, say.
struct Related {
    Span span;
    std::string label;
};

struct Diagnostic {
    Code code{};
    Span span;
    // Fill {0}, {1} ... of the catalogue's sentences.
    std::vector<std::string> arguments;
    std::vector<Fix> fixes;
    std::vector<Related> related;
};

}  // namespace stave
