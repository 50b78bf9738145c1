// What the checks of single lines share.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "compiler/check/check.hpp"
#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// The movements that the files define or take from the library, by folded name;
// other names of theirs lead to them too.
struct Definitions {
    std::vector<program::MovementDefinition> movements;
    // Of each movement, as `fold_name` gives it.
    std::vector<std::string> folded_names;
    std::unordered_map<std::string, std::uint32_t> by_name;

    [[nodiscard]] const program::MovementDefinition* find(const std::string& folded_name) const;
};

// Reads all `movement NAME:` lines and what follows them.
[[nodiscard]] Definitions collect_definitions(const syntax::Document& document,
                                              DiagnosticSink& sink);

// Adds the cues and faults of the item's movements to its own, each once.
void add_coaching(const Definitions& definitions, program::Item& item);

// A movement line whose lists have not been matched to rounds yet.
struct DraftItem {
    program::Item item;
    // `3 x 8`: the number of sets was said; a list has it by its length.
    bool says_sets = false;
    // No amount is said, which only intervals fill.
    bool without_amount = false;
    Span head_span;
    // How far the line stands in.
    std::uint32_t column = 0;
    // Its rest "between sets", which only straight sets have.
    std::optional<Span> rest_between_sets;
    // Of "3 x 8": what is said of one set, and where the sets before it stand.
    std::string one_set;
    Span sets_prefix;
    // Of the amount, for pointing at.
    Span amount_span;
    // Its own line, or one it depends on, is broken: say nothing more about it.
    bool tainted = false;
};

class UnknownMovements;

// One dose line with its names, in a block that runs so. Reports what is wrong with it
// by itself.
[[nodiscard]] DraftItem check_dose(const syntax::Line& line, program::RunKind run,
                                   const Definitions& definitions, UnknownMovements& unknown,
                                   DiagnosticSink& sink);

// The line without its indentation and its remark.
[[nodiscard]] Span said_span(const syntax::Line& line);
[[nodiscard]] program::Rest to_rest(const syntax::Rest& rest);
// "each leg", "alternating", "left", "right".
[[nodiscard]] std::string side_text(const program::Sides& sides);
[[nodiscard]] program::Sides to_sides(const syntax::Side& side);

// "s", "reps, s".
[[nodiscard]] std::string unit_list(const std::vector<Unit>& units);

}  // namespace stave::check
