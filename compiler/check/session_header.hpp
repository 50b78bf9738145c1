// The lines of a session before its first block: when, where, for whom, with what, how hard,
// and how its card is made.
#pragma once

#include <optional>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// What is put together when the session ends.
struct SessionHeader {
    std::optional<syntax::When> when;
    std::optional<syntax::Word> zone;
    bool pages_said = false;
    // Of all its blocks that say no other.
    std::optional<program::Rest> rest_between_blocks;
};

// A line of them; each kind stands once.
void add_session_fact(const syntax::Line& line, program::Session& session, SessionHeader& header,
                      DiagnosticSink& sink);

}  // namespace stave::check
