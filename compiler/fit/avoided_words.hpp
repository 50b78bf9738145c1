// Words of the coach that name what somebody is to avoid, and reach them all the same.
#pragma once

#include <string>
#include <vector>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::fit {

// A word by which what somebody avoids would be named, folded; and what that is, for people.
struct AvoidedWord {
    std::string folded;
    std::string what;
};

// Of all that they avoid, and of all movements of the file that ask for it; none for who avoids
// nothing.
[[nodiscard]] std::vector<AvoidedWord> avoided_words(const program::Program& program,
                                                     const program::Athlete& athlete);

// Warns of titles, cues, faults, counts, notes, stops and options of the fitted session that name
// one of the words, once for each session, block and item. What is said not to be done ("no
// jumping") is none.
void report_avoided_words(const program::Athlete& athlete, const std::vector<AvoidedWord>& avoided,
                          const program::Session& session, DiagnosticSink& sink);

}  // namespace stave::fit
