// Runs the grammar over one head or body. PEGTL is seen by rules.cpp alone.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/parse/parse_tree.hpp"

namespace stave::parse {

// Where the grammar stopped and what it missed there.
struct Failure {
    Code code{};
    std::uint32_t offset = 0;
};

// Appends the nodes of the body to `nodes`; on failure appends nothing.
[[nodiscard]] std::optional<Failure> run_body(grammar::BodyKind kind, std::string_view text,
                                              Span body, std::vector<Node>& nodes);

// Whether the rule reads the whole text.
[[nodiscard]] bool reads(grammar::BodyKind kind, std::string_view text);

// The names of a movement's head.
[[nodiscard]] std::optional<Failure> run_head(std::string_view text, Span head,
                                              std::vector<Node>& nodes);

}  // namespace stave::parse
