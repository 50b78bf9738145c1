// What running text tells of a movement and a block beside the dose: for feeds and
// reports.
#pragma once

#include <string>
#include <vector>

#include "compiler/program/program.hpp"
#include "compiler/wording/language.hpp"

namespace stave::wording {

// Whether cues, faults and notes are told, or only what is to be done and when to stop.
enum class Telling { full, brief };

// "overhead, loaded spine": what somebody in the session has to avoid. For the coach: it
// tells of somebody's health, and feeds are read by all who know their address.
[[nodiscard]] std::string avoided(const program::Session& session);
// "push-up: 3 × 8, rest 60 s".
[[nodiscard]] std::string dosed(Language language, const program::Block& block,
                                const program::Item& item);
// One line each: "each rep: forward, side, back", "or plank: 40 s, if no bar", "Your choice:
// inside, outside", "Stop: sharp pain", "Cue: long neck", "Fault: hips sag. Mend: ribs down".
[[nodiscard]] std::vector<std::string> below_item(Language language,
                                                  const program::Program& program,
                                                  const program::Block& block,
                                                  const program::Item& item, Telling telling);
// The same for what stands below the block's own line.
[[nodiscard]] std::vector<std::string> below_block(Language language, const program::Block& block,
                                                   Telling telling);

}  // namespace stave::wording
