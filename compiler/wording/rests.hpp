// Rests in words, for the files of this folder.
#pragma once

#include <optional>
#include <string>

#include "compiler/program/program.hpp"
#include "compiler/wording/language.hpp"
#include "compiler/wording/words.hpp"

namespace stave::wording {

// "rest 60 s", "rest: walk back".
[[nodiscard]] std::string with_rest(Language language, const program::Rest& pause);
// "rest 3 min between rounds, easy walk", "rest between sets: walk back"; "" for none.
[[nodiscard]] std::string rest_at(Language language, const std::optional<program::Rest>& pause,
                                  Word place);
// The rests of a block, in its order; "" for none.
[[nodiscard]] std::string block_rests(Language language, const program::Block& block);
// The item's own rest and the one between its sides, as far as they are taken; or "".
[[nodiscard]] std::string own_rests(Language language, const program::Block& block,
                                    const program::Item& item);

}  // namespace stave::wording
