// The languages that a card can speak.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace stave::wording {

enum class Language : std::uint8_t {
    english,
    portuguese,
    spanish,
    french,
    german,
    polish,
    greek,
};

inline constexpr std::array languages{Language::english, Language::portuguese, Language::spanish,
                                      Language::french,  Language::german,     Language::polish,
                                      Language::greek};

// Its BCP 47 tag: "en".
[[nodiscard]] constexpr std::string_view tag(Language language) {
    constexpr std::array<std::string_view, languages.size()> tags{"en", "pt", "es", "fr",
                                                                  "de", "pl", "el"};
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
