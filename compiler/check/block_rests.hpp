// Where each rest of a block belongs.
#pragma once

#include "compiler/check/blocks.hpp"

namespace stave::check {

// Whether the movements take turns, as far as the head and the lines so far say.
[[nodiscard]] bool runs_by_rounds(const DraftBlock& draft);

// A rest of the block's head or of a `rest` line straight below it.
void add_block_rest(const syntax::Rest& rest, DraftBlock& draft, DiagnosticSink& sink);

// A `rest` line: the last movement's, or the block's where it says so.
void add_rest_line(const syntax::Rest& rest, DraftBlock& draft, DiagnosticSink& sink);

// What a `rest` line below the block's last movement means: in straight sets, and with
// one round, the rest before the next block; with more it must say so.
void settle_last_rest(DraftBlock& draft, bool another_follows, DiagnosticSink& sink);

}  // namespace stave::check
