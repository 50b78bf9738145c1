// Lines that look as if they stood outside the block they belong to.
#pragma once

#include <string>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// Indentation and blank lines mean nothing, so a line that stands apart by both belongs
// to the block above it all the same. A warning says so, once a block.
class StandsApart {
public:
    void meet_blank() { is_behind_gap_ = true; }
    void open_block(const syntax::Line& head);
    // A line of the block, whose name is told.
    void meet(const syntax::Line& line, const std::string& block_name, DiagnosticSink& sink);

private:
    bool is_behind_gap_ = false;
    // A line of the block stands further in than its head.
    bool is_indented_ = false;
    bool is_said_ = false;
    std::uint32_t head_column_ = 0;
};

}  // namespace stave::check
