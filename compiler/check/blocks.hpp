// Blocks: matches every item's sets to the block's rounds and puts each rest
// where it belongs.
#pragma once

#include <vector>

#include "compiler/check/lines.hpp"

namespace stave::check {

// A block as its lines said it, before its items' lists are matched.
struct DraftBlock {
    program::Block block;
    std::optional<std::int64_t> rounds;
    std::vector<DraftItem> items;
    // For each item, its substitutes; of the second only what is said beside the
    // item.
    std::vector<std::vector<std::pair<DraftItem, program::Substitute>>> substitutes;
    Span head;
    // How it runs is unknown.
    bool head_is_broken = false;
    // Of `every`: what is done in each interval, which two movements or more must
    // say.
    syntax::EveryScope every_scope = syntax::EveryScope::all_movements;
    Span every_span;
    // The `rest` line below the last movement.
    std::optional<syntax::Rest> rest_line;
    // A line of it is broken: what depends on all its lines is not judged.
    bool tainted = false;
};

// Opens a block from its head line, rests and rounds included.
[[nodiscard]] DraftBlock open_block(const syntax::Line& line, DiagnosticSink& sink);

// How the block runs: its rounds, times and groups, which must agree. Taints the
// draft after an error.
void apply_format(const syntax::Format& format, const syntax::Line& line, DraftBlock& draft,
                  DiagnosticSink& sink);

// "the circuit Deck legs".
[[nodiscard]] std::string block_name(const program::Block& block);
[[nodiscard]] std::string sentence_start(std::string text);

// Takes what the draft holds. Another block may follow in the session.
[[nodiscard]] program::Block finish_block(DraftBlock& draft, bool another_follows,
                                          DiagnosticSink& sink);

}  // namespace stave::check
