// What parsing gives: the lines of a text in order, each with its kind, its
// parts and the nodes that the grammar found in its body.
//
// Nodes of a line are a tree in pre-order; `after` leads past a node's last
// descendant, so that siblings are found by jumping. Spans are those of the
// text as typed.
#pragma once

#include <cstdint>
#include <vector>

#include "compiler/source/source_file.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::parse {

// One for each grammar rule that lowering needs; named like the rules.
enum class NodeKind : std::uint8_t {
#define STAVE_NODE_KIND(id) id,
#include "compiler/parse/node_kinds.def"
};

struct Node {
    NodeKind kind{};
    Span span;
    // Index of the first node that is no descendant.
    std::uint32_t after = 0;
};

struct Line {
    grammar::LineKind kind = grammar::LineKind::blank;
    // Its diagnostic has been reported, and it has no nodes.
    bool is_broken = false;
    // A line of a routine with blanks to be filled in: only its head's kind is known.
    bool is_deferred = false;
    // The whole line without its end.
    Span span;
    // Trimmed; empty for lines without a colon.
    Span head;
    // What the head says behind its opener ("Haul" of "sets Haul"), or the head
    // itself for a movement; trimmed.
    Span title;
    // The colon behind the head; empty where there is none.
    Span colon;
    Span body;
    // From the # to the end, or empty.
    Span remark;
    // The line's nodes: those of the head first, then those of the body.
    std::uint32_t first_node = 0;
    std::uint32_t after_nodes = 0;
};

// Keeps no text of its own: the SourceFile must outlive it.
struct ParseTree {
    std::vector<Line> lines;
    std::vector<Node> nodes;
};

}  // namespace stave::parse
