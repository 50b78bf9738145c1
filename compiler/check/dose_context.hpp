// What the functions that check one dose line share.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/check/lines.hpp"
#include "compiler/check/unknown_movements.hpp"

namespace stave::check {

// References outlive the check of the line.
struct DoseContext {
    const syntax::Line& line;
    const syntax::Dose& dose;
    const Definitions& definitions;
    UnknownMovements& unknown;
    DiagnosticSink& sink;
    DraftItem& draft;

    // The text as typed; the span lies in the line.
    [[nodiscard]] std::string_view text_of(Span span) const {
        return {line.head.text.data() + (span.begin - line.head.span.begin), span.size()};
    }

    // Reports an error and taints the draft.
    void fail(Code code, Span span, std::vector<std::string> arguments,
              std::vector<Fix> fixes = {}) const {
        draft.tainted = true;
        sink.report({code, span, std::move(arguments), std::move(fixes), {}});
    }
};

// What a series of numbers says, ladders written out.
[[nodiscard]] std::vector<std::optional<syntax::Value>> spread(const syntax::Series& series);

// Amounts of each joined movement, all with as many sets.
void add_parts(const DoseContext& context);
// Parts without an amount, which an interval gives them.
void add_bare_parts(const DoseContext& context);
// The side that is said, against what each movement's definition says.
void check_sides(const DoseContext& context);
// One load for all sets, or a list with one for each.
void add_loads(const DoseContext& context);
// What stands behind commas.
void add_details(const DoseContext& context);
// Efforts among the details.
[[nodiscard]] std::optional<program::LoadTerm> to_effort(const DoseContext& context,
                                                         const syntax::LoadTerm& term);

}  // namespace stave::check
