// What the feeds of plans are called: a plan's after its name, a group's after both.
//
// Names keep lower-case ASCII letters, digits and hyphens alone, so two may come to the same;
// then one feed would be for both, which is refused.
#pragma once

#include <string>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::schedule {

// "autumn-b", without an ending. `group` may be empty.
[[nodiscard]] std::string feed_name(const program::Plan& plan, const std::string& group);

// Groups of one plan whose names differ by their letter case alone are one, and share a feed.
void check_feed_names(const program::Program& program, DiagnosticSink& sink);

}  // namespace stave::schedule
