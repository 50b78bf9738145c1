#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::wording {

std::string_view pattern(Language language, program::Pattern pattern) {
    static constexpr Word words[] = {
#define STAVE_PATTERN(id, word) Word::id,
#include "grammar/keywords.def"
    };
    return word(language, words[static_cast<std::size_t>(pattern)]);
}

}  // namespace stave::wording
