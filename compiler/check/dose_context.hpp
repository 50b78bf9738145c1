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
    // How the block runs.
    program::RunKind run;

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

// Adds what a series says to the part, set by set; false after an error.
// `definition` is null where nothing is known of the movement.
[[nodiscard]] bool add_series(const DoseContext& context, program::Part& part,
                              const program::MovementDefinition* definition,
                              const syntax::Series& series);

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
// One load by itself: false after an error.
[[nodiscard]] bool check_term(const DoseContext& context, const syntax::LoadTerm& term);
// How many sets its lists are for; 1 without a list.
[[nodiscard]] std::size_t value_count(const syntax::LoadTerm& term);
// A checked term as it holds for one set.
[[nodiscard]] program::LoadTerm to_term(const syntax::LoadTerm& term, std::size_t set);
// Efforts among the details.
[[nodiscard]] std::optional<program::LoadTerm> to_effort(const DoseContext& context,
                                                         const syntax::LoadTerm& term);

}  // namespace stave::check
