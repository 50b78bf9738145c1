// Lines that look as if they stood outside the block they belong to.
#pragma once

#include <cstdint>
#include <optional>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// Indentation and blank lines mean nothing, so a line that stands apart by both belongs
// to the block above it all the same, and a movement that stands further in than options
// above it is done like the others. A warning says so, once a block.
class StandsApart {
public:
    void meet_blank() { is_behind_gap_ = true; }
    void open_block(const syntax::Line& head);
    // Movements straight below it have no head to stand apart from.
    void open_session() { *this = {}; }
    // A line of the block.
    void meet(const syntax::Line& line, const program::Block& block, DiagnosticSink& sink);

private:
    void meet_movement(const syntax::Line& line, DiagnosticSink& sink);

    bool is_behind_gap_ = false;
    // A line of the block stands further in than its head.
    bool is_indented_ = false;
    bool is_said_ = false;
    bool is_below_said_ = false;
    // Of options, until a movement follows that is not below them.
    std::optional<std::uint32_t> options_column_;
    // Of the block's head, where it has one.
    std::optional<std::uint32_t> head_column_;
};

}  // namespace stave::check
