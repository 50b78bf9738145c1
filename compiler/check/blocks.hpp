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
    // For each item, its substitutes.
    std::vector<std::vector<std::pair<DraftItem, std::string>>> substitutes;
    Span head;
    // A line of it is broken: what depends on all its lines is not judged.
    bool tainted = false;
};

// Opens a block from its head line, rests and rounds included.
[[nodiscard]] DraftBlock open_block(const syntax::Line& line, DiagnosticSink& sink);

// A rest of the block's head or of a `rest` line straight below it.
void add_block_rest(const syntax::Rest& rest, DraftBlock& draft, DiagnosticSink& sink);

[[nodiscard]] program::Block finish_block(DraftBlock draft, DiagnosticSink& sink);

}  // namespace stave::check
