// The languages that a card can speak.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "grammar/vocabulary.hpp"

namespace stave::wording {

using grammar::Language;

inline constexpr std::array languages{
#define STAVE_LANGUAGE(id, tag, name, own_name) Language::id,
#include "grammar/keywords.def"
};

// Its BCP 47 tag: "en".
[[nodiscard]] constexpr std::string_view tag(Language language) {
    constexpr std::array<std::string_view, languages.size()> tags{
#define STAVE_LANGUAGE(id, tag, name, own_name) tag,
#include "grammar/keywords.def"
    };
    return tags[static_cast<std::size_t>(language)];
}

// The language of a tag written in small letters; nothing for any other text.
[[nodiscard]] constexpr std::optional<Language> language_of(std::string_view wanted) {
    for (const Language language : languages) {
        if (tag(language) == wanted) return language;
    }
    return std::nullopt;
}

}  // namespace stave::wording
