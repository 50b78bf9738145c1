// What somebody has to lay out for a session, of all that they have.
#pragma once

#include <vector>

#include "compiler/program/program.hpp"

namespace stave::fit {

// Of the athlete's kit line, in its order, what the movements of the fitted session ask for: of
// weights those that are lifted, of plates as many pairs as the fullest bar takes. What the kit
// line of the session as it is written lists beside its movements (a mat, a clock) comes along
// where they have it. Of what they cannot do, or are to avoid, nothing is needed.
[[nodiscard]] std::vector<program::KitThing> needed_kit(const program::Program& program,
                                                        const program::Athlete& athlete,
                                                        const program::Session& written,
                                                        const program::Session& fitted);

}  // namespace stave::fit
