// Sets near the limit for the young and the old: a word to the coach, and nothing more.
#pragma once

#include <vector>

#include "compiler/fit/fit_loads.hpp"

namespace stave::fit {

// Notes each item of the fitted session, once, that asks an athlete of an age group up to under
// 18, or from over 60 on, for nine tenths of a max or more, for a build-up to three reps or fewer,
// or for as few at RPE 10. Changes nothing; says nothing where no age group is said.
void note_age(const LoadContext& context, const program::Session& session,
              const std::vector<Working>& workings);

}  // namespace stave::fit
