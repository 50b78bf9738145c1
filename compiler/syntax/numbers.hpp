// Reads numbers and quantities from the nodes of a line, and words what is
// unclear about them.
#pragma once

#include <optional>
#include <string_view>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/parse/parse_tree.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::syntax {

// Largest number that is read anywhere, and most digits behind a point. They
// keep every product and sum of later passes inside 64 bits.
inline constexpr std::int64_t largest_number = 1'000'000;
inline constexpr std::size_t most_decimals = 4;

// Signs of an address. A code of more has squares too fine for a phone.
inline constexpr std::size_t longest_link = 300;

// The nodes of one line as a walk needs them.
struct NodeReader {
    const parse::ParseTree& tree;
    std::string_view text;
    DiagnosticSink& sink;

    [[nodiscard]] const parse::Node& at(std::uint32_t node) const { return tree.nodes[node]; }
    [[nodiscard]] std::string_view slice(Span span) const {
        return text.substr(span.begin, span.size());
    }
    // As typed, for a diagnostic's argument.
    [[nodiscard]] std::string said(Span span) const { return std::string(slice(span)); }
    void report(Code code, Span span, std::vector<std::string> arguments,
                std::vector<Fix> fixes = {}) const;

    // First child of the kind, if there is one.
    [[nodiscard]] std::optional<std::uint32_t> child(std::uint32_t node,
                                                     parse::NodeKind kind) const;
};

// The fix that puts `text` in the place of the span, labelled by the text.
[[nodiscard]] Fix replace(Span span, const std::string& text);

// A `quantity` node; nothing after an error has been reported.
[[nodiscard]] std::optional<Value> read_quantity(const NodeReader& reader, std::uint32_t node);

// A number node of any form, plain: `end` is where a unit would follow.
struct Number {
    Ratio value;
    // Written as min:s, so the value is seconds.
    bool clock = false;
    Span span;
};
[[nodiscard]] std::optional<Number> read_number(const NodeReader& reader, std::uint32_t node);

// Digits alone, or nothing after `number-too-large`.
[[nodiscard]] std::optional<std::int64_t> read_whole(const NodeReader& reader, Span span);

}  // namespace stave::syntax
