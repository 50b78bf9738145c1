// Fitting: a session as one athlete does it. Lines of their squads, substitutes for what they
// lack or avoid, and every load as a weight that they can make.
//
// A session that leaves here is one like any other: cards, entries and timelines are made of
// it. What was decided and reckoned stands beside it, for the coach.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/fit/avoided_words.hpp"
#include "compiler/fit/choose.hpp"
#include "compiler/fit/racks.hpp"
#include "compiler/fit/working.hpp"
#include "compiler/program/program.hpp"

namespace stave::fit {

// What is the same for all sessions of an athlete, made once. Equal kits share their racks.
struct Outfit {
    std::uint32_t athlete_id = 0;
    std::vector<std::string> folded_squads;
    std::shared_ptr<const Racks> racks;
    std::vector<AvoidedWord> avoided_words;
};

// One for each athlete of the program, in order.
[[nodiscard]] std::vector<Outfit> make_outfits(const program::Program& program);

struct Fitted {
    program::Session session;
    std::vector<Choice> choices;
    // In the order of the sets; equal ones that follow one another stand once.
    std::vector<Working> workings;
};

// Reports loads that cannot be worked out or made, what is lacking, words that name what they
// avoid, and sets that are heavy for their age. `blank_name` stands
// in the place of a movement that the athlete is not to do. The test that counts is the newest
// on or before the session's day; without a day the newest of all.
[[nodiscard]] Fitted fit(const program::Program& program, const program::Session& session,
                         const Outfit& outfit, const std::string& blank_name, DiagnosticSink& sink);

}  // namespace stave::fit
