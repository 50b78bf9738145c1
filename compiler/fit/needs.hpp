// What a movement asks of people and their kit, held against what is known of an athlete.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/program/program.hpp"

namespace stave::fit {

// The first thing that the item needs and the athlete's kit line lacks, by all names of which one
// would do: {"kettlebell", "dumbbell"}; none where there is no such line.
[[nodiscard]] std::vector<std::string> lacking_kit(const program::Program& program,
                                                   const program::Athlete& athlete,
                                                   const program::Item& item);

// "kettlebell or dumbbell".
[[nodiscard]] std::string any_of_words(const std::vector<std::string>& names);

// Whether the athlete's kit has something that is called so.
[[nodiscard]] bool has_thing(const program::Athlete& athlete, const std::string& name);

// What the item asks for that the athlete is to avoid, in words: "overhead work", "lunges".
[[nodiscard]] std::optional<std::string> to_be_avoided(const program::Program& program,
                                                       const program::Athlete& athlete,
                                                       const program::Item& item);

// Whether a substitute's condition ("no jumping", "jumps hurt") speaks of what is avoided.
[[nodiscard]] bool speaks_of_avoided(const program::Athlete& athlete, const std::string& condition);

// "clean + jerk".
[[nodiscard]] std::string name_of(const program::Item& item);

}  // namespace stave::fit
