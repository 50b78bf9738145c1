#include "compiler/wording/wording.hpp"

namespace stave::wording {

std::string_view pattern(Language, program::Pattern pattern) {
    static constexpr std::string_view words[] = {
#define STAVE_PATTERN(id, word) word,
#include "grammar/keywords.def"
    };
    return words[static_cast<std::size_t>(pattern)];
}

}  // namespace stave::wording
