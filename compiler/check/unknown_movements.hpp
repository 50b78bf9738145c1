// Movements that neither the files nor the library know: said once for each name.
#pragma once

#include <string>
#include <unordered_set>

#include "compiler/check/lines.hpp"

namespace stave::check {

class UnknownMovements {
public:
    UnknownMovements(const Definitions& definitions, const Options& options, DiagnosticSink& sink)
        : definitions_(definitions), options_(options), sink_(sink) {}

    // Warns of a known name that is a slip away; else notes that nothing is known.
    void meet(const syntax::Word& name, const std::string& folded_name);

private:
    [[nodiscard]] std::string near_name(const std::string& folded_name) const;

    const Definitions& definitions_;
    const Options& options_;
    DiagnosticSink& sink_;
    std::unordered_set<std::string> met_;
};

}  // namespace stave::check
