// Which movement somebody does: the one that is written, a substitute, or none.
//
// The kit line of an athlete is all that is there; without one nothing is lacking. A movement
// that somebody is to avoid is never theirs.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::fit {

// `lacking`: kit is missing and nothing fits, so the movement stays, and says what (see
// Item::lacking). `blank`: it is to be
// avoided and nothing fits, so its place stays empty.
enum class Outcome : std::uint8_t { as_written, substituted, lacking, blank };

struct Choice {
    std::uint32_t block_id = 0;
    std::uint32_t item_id = 0;
    Outcome outcome = Outcome::as_written;
    // Names of movements; of a blank nothing is done.
    std::string written;
    std::string done;
    // For the coach's eyes alone: "no rower", "is to avoid jumping"; or empty.
    std::string reason;
};

// Puts what the athlete does into the session's items; the substitutes that are left are those
// that hang on how somebody is. `blank_name` stands in the place of a movement that is left
// out. One choice for each item, in order.
[[nodiscard]] std::vector<Choice> choose(const program::Program& program,
                                         const program::Athlete& athlete,
                                         const std::string& blank_name, program::Session& session,
                                         DiagnosticSink& sink);

}  // namespace stave::fit
