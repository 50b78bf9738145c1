// Movements that neither the files nor the library know: said once for each name.
#pragma once

#include <string>
#include <unordered_map>

#include "compiler/check/lines.hpp"

namespace stave::check {

class UnknownMovements {
public:
    UnknownMovements(const Definitions& definitions, const Options& options, DiagnosticSink& sink)
        : definitions_(definitions), options_(options), sink_(sink) {}

    // Warns of a known name that is a slip away; else notes that nothing is known, and
    // which known movement the name speaks of.
    void meet(const syntax::Word& name, const std::string& folded_name);

    // The movement of the files or the library that goes by the name, or "".
    [[nodiscard]] std::string known_name(const std::string& folded_name) const;

private:
    struct Met {
        // A known name that is a slip away, or "".
        std::string near;
        // A known name within this one, or "".
        std::string within;
        // Where it is allowed in one session it may not be in the next.
        bool is_said = false;
    };

    [[nodiscard]] Met look_up(const std::string& folded_name) const;
    [[nodiscard]] std::string near_name(const std::string& folded_name) const;
    [[nodiscard]] std::string name_within(const std::string& folded_name) const;

    const Definitions& definitions_;
    const Options& options_;
    DiagnosticSink& sink_;
    std::unordered_map<std::string, Met> met_;
};

}  // namespace stave::check
