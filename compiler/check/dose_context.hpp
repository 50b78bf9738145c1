// What the functions that check one dose line share.
#pragma once

#include <string>
#include <vector>

#include "compiler/check/lines.hpp"

namespace stave::check {

// References outlive the check of the line.
struct DoseContext {
    const syntax::Line& line;
    const syntax::Dose& dose;
    const Definitions& definitions;
    DiagnosticSink& sink;
    DraftItem& draft;

    // Reports an error and taints the draft.
    void fail(Code code, Span span, std::vector<std::string> arguments,
              std::vector<Fix> fixes = {}) const {
        draft.tainted = true;
        sink.report({code, span, std::move(arguments), std::move(fixes), {}});
    }
};

// Amounts of each joined movement, all with as many sets.
void add_parts(const DoseContext& context);
// The side that is said, against what each movement's definition says.
void check_sides(const DoseContext& context);
// One load for all sets, or a list with one for each.
void add_loads(const DoseContext& context);
// Tempo, hold, arc and rests.
void add_details(const DoseContext& context);

}  // namespace stave::check
